/** What somebody at the rig is told, in a form that the demonstration's operator can follow. */
import type { Instruction } from '../../virtual-rig/led-operator.ts';
import { givenTo, stepOf, type Conductor } from './conductor.ts';
import { openRuns, runOf, type GivenTrial, type Ledger } from './ledger.ts';

export function instructionOf(conductor: Conductor, trials: readonly GivenTrial[]): Instruction {
  const { ledger, phase } = conductor;
  const runId = phase === 'unready' ? conductor.onRigId : conductor.runId;
  const next = openRuns(ledger, trials).find(({ id }) => phase === 'unready' || id !== runId);
  return {
    step: stepOf(conductor, trials),
    runId,
    factors: givenTo(conductor, runId).factors,
    nextFactors: givenTo(conductor, next?.id ?? null).factors,
    fanShare: fanShareOf(ledger, runId),
    runIds: ledger.runs.map(({ id }) => id),
  };
}

/**
 * The wind goes with the number of the fan's level; names are taken as listed from the weakest up,
 * from half of the strongest on.
 */
function fanShareOf(ledger: Ledger, runId: string | null): number {
  const { plan } = ledger;
  const place = plan?.factors.findIndex(({ kind }) => kind === 'fan') ?? -1;
  const levels = plan?.factors[place]?.levels ?? [];
  const at = runId === null ? -1 : (runOf(ledger, runId)?.levels[place] ?? -1);
  const level = levels[at];
  if (level === undefined) return 1;
  const count = levels.length;
  if (level.value === null) return (count + at + 1) / (2 * count);
  const strongest = Math.max(...levels.map(({ value }) => value ?? 0));
  return strongest > 0 ? Math.max(level.value, 0) / strongest : 1;
}
