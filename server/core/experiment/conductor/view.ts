/** The experiment as the pages are shown it, from what is decided, heard, and safely committed. */
import { doubtsOf } from '../doubts/doubts.ts';
import { nameOfFinding, type Finding } from '../../rig-check/finding.ts';
import { findingsOfTrials } from '../../rig-check/trial-findings.ts';
import { usualRun_s } from '../plan/duration.ts';
import type { Run } from '../plan/plan.ts';
import type { ShownTrial } from '../trial.ts';
import {
  NO_EXPERIMENT,
  type ExperimentView,
  type RunView,
  type Step,
  type Undoable,
} from '../view.ts';
import { stepOf, type Conductor } from './conductor.ts';
import { openRuns, trialsOfRun, type Ledger } from './ledger.ts';

/**
 * @param trials the newest revisions that are on disk, by number
 * @param isUnheard no board is in use: readings are keyed in, the next run is the one at work
 */
export function experimentView(
  conductor: Conductor,
  trials: readonly ShownTrial[],
  isUnheard = false,
): ExperimentView {
  const { ledger, rig, question, isWaiting, findings } = conductor;
  const open = openRuns(ledger, trials);
  const phase = isUnheard ? 'unready' : conductor.phase;
  const onRigId = open.length === 0 ? lastSetFor(conductor, trials) : conductor.onRigId;
  const unreadyId = isUnheard ? (open[0]?.id ?? onRigId) : onRigId;
  const atWork = phase === 'unready' ? unreadyId : conductor.runId;
  const now = phase === 'unready' ? open[0]?.id : conductor.runId;
  return {
    plan: ledger.plan,
    runs: runViews(ledger, trials, now),
    step: isUnheard ? stepUnheard(ledger, open) : stepOf(conductor, trials),
    runId: atWork,
    nextRunId: open.find(({ id }) => id !== (isUnheard ? atWork : conductor.runId))?.id ?? null,
    question,
    doubts: doubtsOf(trials, isWindSet(ledger)),
    findings: findingsToTell(ledger, findings, trials),
    isWindHeard: rig.isWindHeard,
    isWaiting,
    isCovered: ledger.isCovered,
    predictions: ledger.predictions,
    meters: ledger.meters,
    instruments: ledger.instruments,
    rotorAndAir: ledger.rotorAndAir,
    fits: ledger.fits,
    airs: ledger.airs,
    undoes: undoableOf(ledger),
    usualRun_s: usualRun_s(timesBetween(trials)),
  };
}

/**
 * The run that the rig was set for last: what is keyed in was set unheard, and what was heard
 * before the program was restarted stands by its trials.
 */
function lastSetFor({ onRigId }: Conductor, trials: readonly ShownTrial[]): string | null {
  const newest = trials.findLast(({ struck }) => !struck);
  const heard = newest?.origin === 'keyed' ? newest.runId : onRigId;
  return heard ?? trials.findLast(({ struck, runId }) => !struck && runId !== null)?.runId ?? null;
}

function findingsToTell(
  ledger: Ledger,
  ofReadings: readonly Finding[],
  trials: readonly ShownTrial[],
): Finding[] {
  const all = [...ofReadings, ...findingsOfTrials(trials, ledger, isWindSet(ledger))];
  return all.filter((finding) => !ledger.accepted.includes(nameOfFinding(finding)));
}

/** Another wind is then no sign of a fan that was moved. */
function isWindSet({ plan }: Ledger): boolean {
  return plan?.factors.some(({ kind }) => kind === 'fan') ?? false;
}

function runViews(
  ledger: Ledger,
  trials: readonly ShownTrial[],
  nowId: string | null | undefined,
): RunView[] {
  return ledger.runs.map((run): RunView => {
    const trialIds = trialsOfRun(run.id, trials).map(({ id }) => id);
    const isLeftOut = ledger.skipped.includes(run.id);
    const waits = isLeftOut ? 'skipped' : 'open';
    const status = run.id === nowId ? 'now' : trialIds.length > 0 ? 'done' : waits;
    return { ...run, status, trialIds };
  });
}

/** A session as it is kept: nothing is at work in it. @param trials by number */
export function experimentKept(ledger: Ledger, trials: readonly ShownTrial[]): ExperimentView {
  const { plan, isCovered, predictions, meters, instruments, rotorAndAir, fits, airs } = ledger;
  return {
    ...NO_EXPERIMENT,
    plan,
    runs: runViews(ledger, trials, null),
    doubts: doubtsOf(trials, isWindSet(ledger)),
    findings: findingsToTell(ledger, [], trials),
    isCovered,
    predictions,
    meters,
    instruments,
    rotorAndAir,
    fits,
    airs,
  };
}

function undoableOf({ undos }: Ledger): Undoable | null {
  const last = undos.at(-1);
  return last === undefined ? null : { ...last.done, place: undos.length };
}

function stepUnheard({ plan }: Ledger, open: readonly Run[]): Step {
  if (plan === null) return 'no-plan';
  return open.length === 0 ? 'finished' : 'read-meters';
}

/** From one planned trial to the next of the same recording, s. */
function timesBetween(trials: readonly ShownTrial[]): number[] {
  const planned = trials.filter(({ runId, basis }) => runId !== null && basis === 'settled');
  return planned.slice(1).flatMap((trial, i) => {
    const before = planned[i];
    const isSame = before?.recordingId === trial.recordingId;
    return isSame ? [trial.start_s - before.start_s] : [];
  });
}
