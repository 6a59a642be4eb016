/**
 * Leads through the plan by ear: it knows from the signal when the rig was stopped, set and
 * started again, and so which run a plateau belongs to. A plateau that no run asked for is kept
 * without one; it never shifts the plan.
 *
 *   unready ──rig stands──▸ ready ──rig runs──▸ running ──trial logged──▸ unready …
 */
import type { MeasuredValue } from '../../metrology/measured-value.ts';
import type { Finding } from '../../rig-check/finding.ts';
import type { Estimate, Plateau, Verdict } from '../../signal/plateau.ts';
import { factorsOf } from '../plan/factors.ts';
import type { Run } from '../plan/plan.ts';
import { isSameSetting } from '../plan/run-id.ts';
import type { Trial } from '../trial.ts';
import type { Question, Step } from '../view.ts';
import { EMPTY_LEDGER, openRuns, runOf, type GivenTrial, type Ledger } from './ledger.ts';
import { hearRig, UNHEARD, type LastLevels, type RigHeard } from './rig-heard.ts';

export interface Conductor {
  ledger: Ledger;
  phase: 'unready' | 'ready' | 'running';
  /** The run that the rig is set for; null while unready. */
  runId: string | null;
  /** The run whose level is on the rig, as far as is known. */
  onRigId: string | null;
  /** The trial that the open plateau was logged as. */
  loggedTrialId: number | null;
  last: LastLevels;
  /** Stream time at which the logged plateau closed; the fan may still be on. */
  overSince_s: number | null;
  rig: RigHeard;
  /** Stream time since which it has been ready; null until the next verdict. */
  readySince_s: number | null;
  /** A steady stretch of this run that ended before it was logged. */
  before: Partial<Record<'power_W' | 'windSpeed_mps', Estimate>> | null;
  question: Question | null;
  /** What has been asked and needs no asking again: a run's id, or what will not settle. */
  askedAbout: string | null;
  isWaiting: boolean;
  /** What the readings say of the wiring. */
  findings: readonly Finding[];
}

export function createConductor(ledger: Ledger | null = null): Conductor {
  return {
    ledger: ledger ?? EMPTY_LEDGER,
    phase: 'unready',
    runId: null,
    onRigId: null,
    loggedTrialId: null,
    last: { voltage_V: null, windSpeed_mps: null },
    overSince_s: null,
    rig: UNHEARD,
    readySince_s: null,
    before: null,
    question: null,
    askedAbout: null,
    isWaiting: false,
    findings: [],
  };
}

/** Without an anemometer, nothing turning for this long is worth asking about, s. */
const FAN_QUESTION_S = 25;

/** Takes what the detector says about five times a second. */
export function hear(
  conductor: Conductor,
  verdict: Verdict,
  trials: readonly GivenTrial[],
): void {
  conductor.rig = hearRig(conductor.rig, verdict, conductor.last);
  noteOver(conductor, verdict);
  if (conductor.ledger.plan === null) return;
  if (conductor.rig.motion === 'standing') hearStanding(conductor, verdict, trials);
  if (conductor.rig.motion === 'running') hearRunning(conductor, verdict);
}

function hearStanding(
  conductor: Conductor,
  { time_s }: Verdict,
  trials: readonly GivenTrial[],
): void {
  if (conductor.question?.kind !== 'is-fan-on') conductor.question = null;
  if (conductor.phase === 'running') conductor.phase = 'ready';
  if (conductor.phase === 'unready') getReady(conductor, openRuns(conductor.ledger, trials)[0]);
  if (conductor.phase !== 'ready') return;
  conductor.before = null;
  conductor.readySince_s ??= time_s;
  const isLong = time_s - conductor.readySince_s > FAN_QUESTION_S;
  if (conductor.rig.isWindHeard || !isLong || conductor.askedAbout === conductor.runId) return;
  conductor.question = { kind: 'is-fan-on' };
  conductor.askedAbout = conductor.runId;
}

function hearRunning(conductor: Conductor, { standing, cause }: Verdict): void {
  if (conductor.phase === 'ready') {
    conductor.phase = 'running';
    conductor.onRigId = conductor.runId;
    conductor.before = null;
    conductor.question = null;
    if (conductor.askedAbout === 'unsettled') conductor.askedAbout = null;
  }
  conductor.readySince_s = null;
  const isTrying = standing === 'seeking' || standing === 'unsettled';
  if (conductor.phase !== 'running' || !isTrying) {
    if (conductor.question?.kind === 'unsettled') conductor.question = null;
    if (conductor.askedAbout === 'unsettled') conductor.askedAbout = null;
    return;
  }
  // Gusts come and go: it is asked once, and stays until it is answered or the rig has settled.
  if (cause === null || conductor.askedAbout === 'unsettled') return;
  conductor.question = { kind: 'unsettled', cause };
  conductor.askedAbout = 'unsettled';
}

/** What was logged is no news once the fan is being stopped, or plainly is not. */
const NEWS_S = 4;

function noteOver(conductor: Conductor, { time_s }: Verdict): void {
  const { overSince_s, rig } = conductor;
  if (overSince_s === null || !(rig.runsDown || time_s - overSince_s > NEWS_S)) return;
  conductor.loggedTrialId = null;
  conductor.overSince_s = null;
}

/** The rig stands (or somebody says that it is set): this run may be set up. */
export function getReady(conductor: Conductor, run: Run | undefined): void {
  if (run === undefined) return;
  conductor.phase = 'ready';
  conductor.runId = run.id;
  conductor.readySince_s = null;
  conductor.loggedTrialId = null;
}

/** The rig must be stopped before anything else is measured by plan. */
export function loseReadiness(conductor: Conductor): void {
  conductor.phase = 'unready';
  conductor.runId = null;
  conductor.before = null;
}

/** Has another ledger hold; the run at work stays at work as long as it is still to be done. */
export function changeLedger(
  conductor: Conductor,
  ledger: Ledger,
  trials: readonly GivenTrial[],
): void {
  conductor.ledger = ledger;
  if (conductor.phase === 'unready') return;
  const isStillOpen = openRuns(ledger, trials).some(({ id }) => id === conductor.runId);
  if (!isStillOpen) loseReadiness(conductor);
}

/** What a new trial is given by the plan. */
export type Attribution = Pick<Trial, 'runId' | 'factors'>;

const UNASSIGNED: Attribution = { runId: null, factors: {} };

type Measured = Pick<Trial, 'power_W' | 'windSpeed_mps' | 'recorded'>;

/** The run that the plateau belongs to which is about to become a trial. */
export function attributionOf(conductor: Conductor, measured: Measured): Attribution {
  const run = runOf(conductor.ledger, conductor.runId);
  if (conductor.phase !== 'running' || run === null) return UNASSIGNED;
  if (hasSlipped(conductor, measured)) return UNASSIGNED;
  return givenTo(conductor, run.id);
}

/** What a trial carries that is given to this run; nothing when there is no such run. */
export function givenTo({ ledger }: Pick<Conductor, 'ledger'>, runId: string | null): Attribution {
  const run = runOf(ledger, runId);
  if (run === null || ledger.plan === null) return UNASSIGNED;
  return { runId: run.id, factors: factorsOf(ledger.plan, run) };
}

/** Takes a trial that was entered just now with the attribution from `attributionOf`. */
export function noteTrial(conductor: Conductor, trial: Trial): void {
  if (conductor.ledger.plan === null || !trial.recorded) return;
  if (trial.runId !== null) {
    conductor.onRigId = trial.runId;
    conductor.last = {
      voltage_V: trial.voltage_V?.value ?? null,
      windSpeed_mps: trial.windSpeed_mps?.value ?? null,
    };
    conductor.overSince_s = null;
    conductor.loggedTrialId = trial.id;
    conductor.question = null;
  } else if (!goesOn(conductor, trial)) {
    conductor.question = { kind: 'unassigned', trialId: trial.id };
  }
  if (conductor.ledger.wantedId === trial.runId) {
    conductor.ledger = { ...conductor.ledger, wantedId: null };
  }
  loseReadiness(conductor);
}

/**
 * Takes a trial that was made by hand. When it is of the run at work, that run has its trial: what
 * the board hears from here on only goes on.
 */
export function noteByHand(conductor: Conductor, { id, runId, struck, voltage_V }: Trial): void {
  if (runId === null || struck) return;
  if (conductor.ledger.wantedId === runId) {
    conductor.ledger = { ...conductor.ledger, wantedId: null };
  }
  if (conductor.runId !== runId) return;
  if (conductor.phase === 'running') {
    conductor.loggedTrialId = id;
    conductor.last = { ...conductor.last, voltage_V: voltage_V?.value ?? null };
  }
  conductor.question = null;
  loseReadiness(conductor);
}

/** Takes what an operator has done to a trial. */
export function noteMarks(conductor: Conductor, trial: Trial): void {
  const { question } = conductor;
  if (question?.kind === 'unassigned' && question.trialId === trial.id) conductor.question = null;
  if (trial.struck && trial.id === conductor.loggedTrialId) conductor.loggedTrialId = null;
}

/** Whether an unassigned trial only shows what was logged before, the rig never having stopped. */
function goesOn({ last }: Conductor, { voltage_V, rotorStill }: Trial): boolean {
  if (last.voltage_V === null || voltage_V === null || rotorStill) return false;
  return Math.abs(voltage_V.value - last.voltage_V) < SAME_SHARE * Math.abs(last.voltage_V);
}

/** Takes a plateau that has closed. `trialId`: the trial that it became. */
export function notePlateau(
  conductor: Conductor,
  plateau: Plateau,
  trialId: number | null,
): void {
  const { estimates, withdrawn = false } = plateau;
  if (trialId !== null && trialId === conductor.loggedTrialId) {
    conductor.overSince_s = plateau.end_s;
    // It had not settled: the same setting is still being measured.
    const isStillSet = withdrawn && conductor.phase === 'unready';
    if (isStillSet && runOf(conductor.ledger, conductor.onRigId) !== null) {
      conductor.loggedTrialId = null;
      conductor.phase = 'running';
      conductor.runId = conductor.onRigId;
    }
    return;
  }
  const isOfRun = conductor.phase === 'running' && trialId === null && !withdrawn;
  const { power_W, windSpeed_mps } = estimates;
  if (isOfRun && power_W !== undefined) {
    conductor.before = { power_W, ...(windSpeed_mps && { windSpeed_mps }) };
  }
}

/** Power that differs by less is the same setting, as a share. */
const SAME_SHARE = 0.05;
/** In combined standard uncertainties: by no more than this does noise make two means differ. */
const SAME_Z = 4;

/**
 * Whether the rig was changed while it ran: a steady stretch came before this one, in the same
 * wind, at another power. A hand in the wind or a knock comes back to the same power.
 */
function hasSlipped({ before }: Conductor, { power_W, windSpeed_mps }: Measured): boolean {
  if (before?.power_W === undefined || power_W === null) return false;
  const wind = before.windSpeed_mps;
  if (wind !== undefined && windSpeed_mps !== null && differs(wind, windSpeed_mps)) return false;
  return differs(before.power_W, power_W);
}

function differs(before: Estimate, now: MeasuredValue): boolean {
  if (now.standardUncertainty === null) return false;
  const apart = Math.abs(now.value - before.mean);
  const u = Math.hypot(before.standardUncertainty, now.standardUncertainty);
  return apart > SAME_Z * u && apart > SAME_SHARE * Math.abs(before.mean);
}

/** The link was lost or the board restarted: what the rig does meanwhile is not heard. */
export function loseHearing(conductor: Conductor): void {
  conductor.rig = { ...UNHEARD, isWindHeard: conductor.rig.isWindHeard };
  conductor.readySince_s = null;
  conductor.loggedTrialId = null;
}

/** A repeat of what is on the rig: the blades stay as they are. */
function isSetAlready({ ledger, runId, onRigId }: Conductor): boolean {
  if (runId === null || onRigId === null) return false;
  return (runOf(ledger, runId)?.repeat ?? 1) > 1 && isSameSetting(runId, onRigId);
}

/** What is to be done now. */
export function stepOf(conductor: Conductor, trials: readonly GivenTrial[]): Step {
  const { ledger, phase, rig } = conductor;
  if (ledger.plan === null) return 'no-plan';
  if (phase === 'running') return 'settling';
  if (phase === 'ready') return isSetAlready(conductor) ? 'start-fan' : 'set-blades';
  if (conductor.loggedTrialId !== null) return 'logged';
  const isOver = openRuns(ledger, trials).length === 0;
  if (isOver && rig.motion !== 'running') return 'finished';
  return rig.runsDown ? 'blades-stopping' : 'stop-fan';
}
