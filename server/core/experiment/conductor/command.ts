/** What the operator says of the plan and its runs: all that needs no readings. */
import { figuresOf, type RigFits } from '../../rotor/fitting/rig-fits.ts';
import type { Obstacle } from '../../obstacle.ts';
import { nameOfFinding } from '../../rig-check/finding.ts';
import { carryOver } from '../plan/change.ts';
import type { Command } from '../command.ts';
import { notNow } from '../not-now.ts';
import type { Plan, Run } from '../plan/plan.ts';
import { changeLedger, getReady, type Conductor } from './conductor.ts';
import {
  doneRuns,
  openRuns,
  runOf,
  withAgain,
  type GivenTrial,
  type Ledger,
} from './ledger.ts';
import { rememberDecision } from './undo.ts';

/** Commands that make or change trials or take something back are the pipeline's. */
export type PlanCommand = Exclude<
  Command,
  { say: 'log-now' | 'average' | 'fan-is-on' | 'key-in' | 'bring-in' | 'correct' | 'relabel' | 'undo' }
>;

/** What stands against it; null when it can be done. */
export function obstacleTo(
  { ledger, phase }: Conductor,
  command: PlanCommand,
  trials: readonly GivenTrial[],
): Obstacle | null {
  switch (command.say) {
    case 'wait':
    case 'go-on':
    case 'leave-it':
      return null;
    case 'is-set': {
      const isNothingLeft = phase === 'unready' && openRuns(ledger, trials).length === 0;
      return isNothingLeft ? notNow('no-run-left') : null;
    }
    default: {
      const decided = decidedBy(ledger, command, trials);
      return isObstacle(decided) ? decided : null;
    }
  }
}

/** Does what is said; nothing where something stands against it. */
export function follow(
  conductor: Conductor,
  command: PlanCommand,
  trials: readonly GivenTrial[],
): void {
  switch (command.say) {
    case 'wait':
      conductor.isWaiting = true;
      break;
    case 'go-on':
      conductor.isWaiting = false;
      break;
    case 'leave-it':
      conductor.question = null;
      break;
    case 'is-set':
      setUp(conductor, trials);
      break;
    default:
      decide(conductor, command, trials);
  }
}

/** The operator's word that the rig is set for the next run, where no stop could be heard. */
function setUp(conductor: Conductor, trials: readonly GivenTrial[]): void {
  if (conductor.phase !== 'unready') return;
  conductor.question = null;
  getReady(conductor, openRuns(conductor.ledger, trials)[0]);
}

type Decision = Exclude<PlanCommand, { say: 'wait' | 'go-on' | 'leave-it' | 'is-set' }>;

/** Decisions are kept beyond this recording, and can be taken back. */
function decide(conductor: Conductor, command: Decision, trials: readonly GivenTrial[]): void {
  const decided = decidedBy(conductor.ledger, command, trials);
  if (isObstacle(decided)) return;
  const was = conductor.ledger;
  changeLedger(conductor, decided, trials);
  rememberDecision(conductor, command.say, was);
  if (command.say === 'take-up') takeUp(conductor, command.runId);
}

/** Whatever the rig is set for, it is this run. */
function takeUp(conductor: Conductor, runId: string): void {
  if (conductor.phase === 'unready') return;
  conductor.runId = runId;
  if (conductor.phase === 'running') conductor.onRigId = runId;
}

function decidedBy(
  ledger: Ledger,
  command: Decision,
  trials: readonly GivenTrial[],
): Ledger | Obstacle {
  switch (command.say) {
    case 'plan':
      return withPlan(ledger, command.plan, trials);
    case 'cover':
      return { ...ledger, isCovered: true };
    case 'reveal':
      return { ...ledger, isCovered: false };
    case 'predict':
      return withVotes(ledger, command);
    case 'rotor-and-air':
      return { ...ledger, rotorAndAir: command.described };
    case 'fit-generator':
      return withFits(ledger, { ...ledger.fits, generator: command.readings });
    case 'fit-lamp':
      return withFits(ledger, { ...ledger.fits, lamp: command.readings });
    case 'accept-finding':
      return { ...ledger, accepted: [...ledger.accepted, nameOfFinding(command)] };
    case 'again':
      return withAgain(ledger, command.runId) ?? notNow('run-unknown', command.runId);
    case 'skip':
    case 'unskip':
    case 'take-up':
      if (runOf(ledger, command.runId) === null) return notNow('run-unknown', command.runId);
      return withRun(ledger, command.say, command.runId);
  }
}

function withRun(ledger: Ledger, say: 'skip' | 'unskip' | 'take-up', runId: string): Ledger {
  const others = ledger.skipped.filter((id) => id !== runId);
  const skipped = say === 'skip' ? [...others, runId] : others;
  return { ...ledger, skipped, ...(say === 'take-up' && { wantedId: runId }) };
}

function isObstacle(decided: Ledger | Obstacle): decided is Obstacle {
  return 'message' in decided;
}

function withPlan(ledger: Ledger, plan: Plan | null, trials: readonly GivenTrial[]): Ledger {
  if (plan === null) return { ...ledger, plan, runs: [], skipped: [], wantedId: null };
  const done = doneRuns(ledger, trials);
  const wanted = openRuns(ledger, trials).filter(({ isAgain }) => isAgain);
  const isOpen = (run: Run): boolean => wanted.some(({ id }) => id === run.id);
  // What somebody wanted again is still wanted, if the plan still has that setting.
  const runs = carryOver([...done, ...wanted], plan, ledger.plan ?? plan).filter(
    (run) => !isOpen(run) || !run.levels.includes(-1),
  );
  const has = (id: string | null): boolean => runs.some((run) => run.id === id);
  return {
    ...ledger,
    plan,
    runs,
    skipped: ledger.skipped.filter(has),
    wantedId: has(ledger.wantedId) ? ledger.wantedId : null,
  };
}

/** Readings that tell no figure are refused: nothing would come of them. */
function withFits(ledger: Ledger, fits: RigFits): Ledger | Obstacle {
  const { emfConstant_Vsprad, windingResistance_Ohm, load } = figuresOf(fits);
  const isGenerator = emfConstant_Vsprad !== null || windingResistance_Ohm !== null;
  if (fits.generator !== null && !isGenerator) {
    return notNow('fits-no-generator');
  }
  if (fits.lamp !== null && load === null) {
    return notNow('fits-no-lamp');
  }
  return { ...ledger, fits };
}

function withVotes(
  ledger: Ledger,
  { level, votes }: { readonly level: string; readonly votes: number },
): Ledger | Obstacle {
  const [factor] = ledger.plan?.factors ?? [];
  if (factor?.levels.some(({ label }) => label === level) !== true) {
    return notNow('vote-unknown', level);
  }
  return { ...ledger, predictions: { ...ledger.predictions, [level]: votes } };
}
