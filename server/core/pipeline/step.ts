/**
 * The main path: one recorded input in, events out. Live, replayed and simulated sources all go
 * through here, so a recording gives the same trials again, bit for bit.
 *
 *   line → reading (frame, clock, calibration) → sample → settling detector → plateau → trial
 *
 * No clock, no randomness, no I/O: time comes with the input.
 */
import { withCalibration } from '../configuration.ts';
import { ask, askForZero, createAsking, hear, isDue, wantAnew } from '../asking/asking.ts';
import { zeroObstacle } from '../asking/zero-doubt.ts';
import {
  givenTo,
  hear as hearVerdict,
  loseHearing,
  noteMarks,
  notePlateau,
  stepOf,
} from '../experiment/conductor/conductor.ts';
import {
  calibrationBefore,
  rememberCalibration,
  rememberMarks,
  undoLast,
} from '../experiment/conductor/undo.ts';
import type { Calibrated } from '../experiment/conductor/undone.ts';
import type { Correctable } from '../experiment/correction.ts';
import { STRIKE_REASONS } from '../experiment/strike-reasons.ts';
import { closeTrial, deriveTrial, isRecorded } from '../experiment/trial-life.ts';
import { addressedTrial, applyAction, rederiveTrial } from '../experiment/trial-book.ts';
import type { Event } from '../events.ts';
import { noteInstrument, tellsInstrumentOnly } from './instrument.ts';
import type { Action, Input } from '../inputs.ts';
import type { LinkHealth } from '../link.ts';
import type { Reading } from '../reading/reading.ts';
import { closeLink, configureReader, loseTime, openLink, readLine } from '../reading/reader.ts';
import { createRigWatch, loseRig, noteBeyond, watchRig } from '../rig-check/watch.ts';
import type { EndReason, Plateau, SettlingEvent, Verdict } from '../signal/plateau.ts';
import type { Sample } from '../signal/sample.ts';
import { keepVoltage } from '../signal/ripple/voltages.ts';
import { finish, interrupt, observe, openPlateau } from '../signal/settling/detector.ts';
import { enter, takeCommand, withRipple } from './command.ts';
import { gapLimit_s, healthAfterLine, healthAfterTick } from './health.ts';
import { press } from './press.ts';
import type { PipelineState } from './state.ts';

const NOTHING: readonly Event[] = [];

/** A logged trial whose plateau is withdrawn is set aside, never removed; it can be taken back. */
const SET_ASIDE = { struck: true, strikeReason: STRIKE_REASONS.notSettled };

function marksOf({ withdrawn }: Plateau): Partial<typeof SET_ASIDE> {
  return withdrawn ? SET_ASIDE : {};
}

/** Takes one input. Use the state it returns; the one given is spent. */
export function step(
  state: PipelineState,
  input: Input,
): { state: PipelineState; events: readonly Event[] } {
  return { state, events: eventsOf(state, input) };
}

function eventsOf(state: PipelineState, input: Input): readonly Event[] {
  switch (input.kind) {
    case 'line':
      return takeLine(state, input.text, input.at_s);
    case 'opened':
      return takeOpened(state, input);
    case 'closed':
      return takeClosed(state, input);
    case 'dropped':
      return [{ kind: 'fault', fault: input.fault, count: input.count }];
    case 'tick':
      return takeTick(state, input.at_s);
    case 'slept':
      return takeSlept(state, input);
    case 'action':
      return takeAction(state, input.action);
    case 'command':
      return takeSaid(state, input);
    case 'zero':
      return takeZero(state, input);
    case 'configured':
      return takeConfigured(state, input);
  }
}

function takeLine(state: PipelineState, text: string, at_s: number): readonly Event[] {
  const reading = readLine(state.reader, text, at_s);
  state.lastLineAt_s = at_s;
  state.lastLine = text;
  const before = beforeSample(state, reading, at_s);
  const { sample } = reading;
  const events = sample === null ? before : takeSample(state, sample, at_s, before);
  const health = healthAfterLine(state, sample !== null, at_s);
  if (health !== state.health) setHealth(state, health, events);
  return events;
}

/** What else a line brings: nothing, nearly always. */
function beforeSample(state: PipelineState, reading: Reading, at_s: number): Event[] {
  const events: Event[] = [];
  const { faults, notices } = reading;
  // A loop over nothing has its cost, too, line by line.
  if (faults.length > 0) {
    for (const fault of faults) events.push({ kind: 'fault', fault, count: 1 });
  }
  if (notices.length > 0) {
    for (const notice of notices) events.push({ kind: 'notice', notice });
  }
  if (reading.restarted) events.push(...breakOff(state, at_s));
  if (reading.beyond !== null) noteBeyond(state.rigWatch, reading.beyond);
  const { sample, frame, boardEvent } = reading;
  if (boardEvent !== null) events.push(...press(state, boardEvent, at_s));
  if (frame !== null) events.push(...hear(state.asking, frame, at_s));
  if (isDue(state.asking, at_s)) events.push(...ask(state.asking, state.reader, at_s));
  if (frame?.kind === 'channel') events.push(...noteInstrument(state));
  if (sample !== null && isGap(state, sample.time_s)) events.push(...breakOff(state, at_s));
  return events;
}

function takeSample(
  state: PipelineState,
  sample: Sample,
  at_s: number,
  before: readonly Event[],
): Event[] {
  state.lastSampleAt_s = at_s;
  state.lastSampleTime_s = sample.time_s;
  const taken: Event = { kind: 'sample', sample };
  // Made at its size: an array that grows takes room for many, and lines come by the thousand.
  const events = before.length === 0 ? [taken] : [...before, taken];
  keepVoltage(state.voltages, sample);
  const settling = observe(state.detector, sample);
  if (settling.length > 0) takeSettling(state, settling, at_s, events);
  if (lookAtRig(state, sample)) events.push({ kind: 'experiment' });
  return events;
}

function takeOpened(
  state: PipelineState,
  { link, at_s }: Extract<Input, { kind: 'opened' }>,
): readonly Event[] {
  const events: Event[] = [];
  openLink(state.reader, link, at_s);
  state.asking = createAsking();
  state.openedAt_s = at_s;
  state.lastLineAt_s = null;
  state.lastSampleAt_s = null;
  setHealth(state, 'starting', events);
  return events;
}

function takeClosed(
  state: PipelineState,
  { reason, at_s }: Extract<Input, { kind: 'closed' }>,
): readonly Event[] {
  const events: Event[] = [];
  if (reason === 'ended') takeSettling(state, finish(state.detector), at_s, events);
  events.push(...breakOff(state, at_s));
  closeLink(state.reader);
  state.asking = createAsking();
  state.openedAt_s = null;
  setHealth(state, 'closed', events);
  return events;
}

function takeTick(state: PipelineState, at_s: number): readonly Event[] {
  const asked = isDue(state.asking, at_s) ? ask(state.asking, state.reader, at_s) : NOTHING;
  const health = healthAfterTick(state, at_s);
  if (health === state.health) return asked;
  const events: Event[] = [...asked, ...(health === 'silent' ? breakOff(state, at_s) : [])];
  setHealth(state, health, events);
  return events;
}

/** What came before and what comes now are not one story, though no time seems to lie between. */
function takeSlept(
  state: PipelineState,
  { at_s, lasted_s }: Extract<Input, { kind: 'slept' }>,
): readonly Event[] {
  const events = [...breakOff(state, at_s)];
  loseTime(state.reader);
  const span = lasted_s < 120 ? `${Math.round(lasted_s)} s` : `${Math.round(lasted_s / 60)} min`;
  const message = `The computer slept for ${span}: nothing was recorded meanwhile, and what was going on was broken off.`;
  events.push({ kind: 'notice', notice: { code: 'computer-slept', message, about: [span] } });
  return events;
}

function takeAction(state: PipelineState, action: Action): readonly Event[] {
  const { book, conductor } = state;
  const before = addressedTrial(book, action);
  if (before !== null) {
    rememberMarks(conductor, action.kind, before);
    const trial = applyAction(book, before, action, (runId) => givenTo(conductor, runId));
    noteMarks(conductor, trial);
    return [{ kind: 'trial', trial }, { kind: 'experiment' }];
  }
  const message = `No trial lies at ${action.time_s.toFixed(1)} s: the ${action.kind} has nothing to act on.`;
  const about = [action.time_s.toFixed(1), action.kind];
  return [{ kind: 'notice', notice: { code: 'orphan-action', message, about } }];
}

function takeZero(
  state: PipelineState,
  { channel, at_s }: Extract<Input, { kind: 'zero' }>,
): readonly Event[] {
  const { asking, reader } = state;
  const obstacle = zeroObstacle(state, channel);
  if (obstacle === null) return askForZero(asking, reader, channel, at_s);
  return [{ kind: 'notice', notice: { code: 'orphan-zero', ...obstacle } }];
}

/** Another calibration is another story; another pace is one once the board has taken it up. */
function takeConfigured(
  state: PipelineState,
  { configuration, corrected, at_s }: Extract<Input, { kind: 'configured' }>,
): readonly Event[] {
  noteCorrected(state, corrected);
  if (tellsInstrumentOnly(state.reader.configuration, configuration)) {
    state.reader.configuration = configuration;
    return noteInstrument(state);
  }
  configureReader(state.reader, configuration);
  // Other numbers come from now on: nothing that was found holds for them.
  state.rigWatch = createRigWatch();
  state.conductor.findings = [];
  wantAnew(state.asking);
  return [
    ...breakOff(state, at_s),
    ...noteInstrument(state),
    ...(corrected === undefined ? NOTHING : [{ kind: 'experiment' } as const]),
    { kind: 'board' },
    ...(isDue(state.asking, at_s) ? ask(state.asking, state.reader, at_s) : NOTHING),
  ];
}

/** What undo does to the reading of a board is done here, all else where commands are. */
function takeSaid(
  state: PipelineState,
  { command, at_s }: Extract<Input, { kind: 'command' }>,
): readonly Event[] {
  const before = command.say === 'undo' ? calibrationBefore(state.conductor.ledger) : null;
  return before === null ? takeCommand(state, command, at_s) : undoCalibration(state, before, at_s);
}

function noteCorrected(
  { reader, conductor }: PipelineState,
  quantity: Correctable | undefined,
): void {
  if (quantity === undefined || reader.linkId === null) return;
  const was = reader.configuration.calibration[quantity] ?? null;
  rememberCalibration(conductor, { boardId: reader.linkId, quantity, was });
}

/** Of another board than the one in use nothing is read: it comes back when that is plugged in. */
function undoCalibration(
  state: PipelineState,
  { boardId, quantity, was }: Calibrated,
  at_s: number,
): readonly Event[] {
  const { reader, conductor, book } = state;
  undoLast(conductor, book);
  if (reader.linkId !== boardId) return [{ kind: 'experiment' }];
  const configuration = withCalibration(reader.configuration, quantity, was);
  return [...takeConfigured(state, { kind: 'configured', at_s, configuration }), { kind: 'experiment' }];
}

/** The samples stop being one steady story here: an open plateau ends as interrupted. */
function breakOff(state: PipelineState, at_s: number): readonly Event[] {
  const events: Event[] = [];
  const { lastSampleTime_s } = state;
  if (lastSampleTime_s === null) return events;
  takeSettling(state, interrupt(state.detector, lastSampleTime_s), at_s, events);
  state.lastSampleTime_s = null;
  state.verdict = null;
  loseHearing(state.conductor);
  loseRig(state.rigWatch);
  events.push({ kind: 'experiment' });
  return events;
}

/** @returns whether what is found of the rig has changed */
function lookAtRig({ rigWatch, conductor }: PipelineState, sample: Sample): boolean {
  if (!watchRig(rigWatch, sample, conductor.rig)) return false;
  conductor.findings = rigWatch.findings;
  return true;
}

function isGap({ lastSampleTime_s, reader }: PipelineState, time_s: number): boolean {
  return lastSampleTime_s !== null && time_s - lastSampleTime_s > gapLimit_s(reader);
}

function takeSettling(
  state: PipelineState,
  settling: readonly SettlingEvent[],
  at_s: number,
  events: Event[],
): void {
  for (const event of settling) {
    switch (event.kind) {
      case 'judged':
        events.push(event);
        state.verdict = event.verdict;
        logWhenRecorded(state, event.verdict.time_s, at_s, events);
        hearAndTell(state, event.verdict, events);
        break;
      case 'declared':
        events.push(event);
        break;
      case 'closed':
        takeClosedPlateau(state, event.plateau, event.endReason, at_s, events);
        break;
    }
  }
}

function logWhenRecorded(
  state: PipelineState,
  now_s: number,
  at_s: number,
  events: Event[],
): void {
  if (state.openTrialId !== null || state.conductor.isWaiting) return;
  const plateau = openPlateau(state.detector);
  if (plateau === null || !isRecorded(plateau, now_s)) return;
  const trial = enter(state, deriveTrial(plateau, 'logged', true), at_s);
  state.openTrialId = trial.id;
  events.push({ kind: 'trial', trial }, { kind: 'experiment' });
}

function takeClosedPlateau(
  state: PipelineState,
  plateau: Plateau,
  endReason: EndReason,
  at_s: number,
  events: Event[],
): void {
  const openId = state.openTrialId;
  state.openTrialId = null;
  const isLeftOut = state.conductor.isWaiting && openId === null;
  const derived = isLeftOut ? null : closeTrial(plateau, endReason, openId !== null);
  const trial =
    derived === null
      ? null
      : openId === null
        ? enter(state, derived, at_s)
        : rederiveTrial(state.book, openId, withRipple(state, derived), marksOf(plateau));
  if (trial !== null) events.push({ kind: 'trial', trial });
  const trialId = trial?.id ?? null;
  events.push({ kind: 'closed', plateau: { ...plateau, endReason, trialId } });
  notePlateau(state.conductor, plateau, openId);
  events.push({ kind: 'experiment' });
}

/** Tells of the experiment when what the pages are shown of it has changed. */
function hearAndTell(
  { conductor, book }: PipelineState,
  verdict: Verdict,
  events: Event[],
): void {
  const shown = () => [
    stepOf(conductor, book.trials),
    conductor.runId,
    conductor.question,
    conductor.rig.isWindHeard,
  ];
  const before = shown();
  hearVerdict(conductor, verdict, book.trials);
  const after = shown();
  if (before.some((one, i) => one !== after[i])) events.push({ kind: 'experiment' });
}

function setHealth(state: PipelineState, health: LinkHealth, events: Event[]): void {
  state.health = health;
  events.push({ kind: 'health', health });
}
