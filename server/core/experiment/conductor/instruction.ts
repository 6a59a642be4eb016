/** What somebody at the rig is told, in a form that the demonstration's operator can follow. */
import type { Instruction } from '../../virtual-rig/led-operator.ts';
import { givenTo, stepOf, type Conductor } from './conductor.ts';
import { openRuns, type GivenTrial } from './ledger.ts';

export function instructionOf(conductor: Conductor, trials: readonly GivenTrial[]): Instruction {
  const { ledger, phase } = conductor;
  const runId = phase === 'unready' ? conductor.onRigId : conductor.runId;
  const next = openRuns(ledger, trials).find(({ id }) => phase === 'unready' || id !== runId);
  return {
    step: stepOf(conductor, trials),
    runId,
    factors: givenTo(conductor, runId).factors,
    nextFactors: givenTo(conductor, next?.id ?? null).factors,
    runIds: ledger.runs.map(({ id }) => id),
  };
}
