/** What the operator says of the experiment, and the trials that a person may ask for. */
import type { Event } from '../events.ts';
import type { Command } from '../experiment/command.ts';
import { follow, obstacleTo } from '../experiment/conductor/command.ts';
import { attributionOf, noteTrial } from '../experiment/conductor/conductor.ts';
import { relabel, relabelBack, relabelObstacle } from '../experiment/conductor/relabel.ts';
import { rememberMade, rememberRelabel, undoLast } from '../experiment/conductor/undo.ts';
import { notNow } from '../experiment/not-now.ts';
import { enterTrial, madeByHand } from '../experiment/trial-book.ts';
import { deriveTrial, type DerivedTrial } from '../experiment/trial-life.ts';
import type { Trial } from '../experiment/trial.ts';
import type { Obstacle } from '../obstacle.ts';
import { rippleBetween } from '../signal/ripple/voltages.ts';
import type { Plateau } from '../signal/plateau.ts';
import { averageNow, type Span } from '../signal/settling/average.ts';
import { openPlateau } from '../signal/settling/detector.ts';
import { noteAir } from './air.ts';
import { importRows, keyIn, obstacleByHand } from './by-hand.ts';
import { correctionsInUse, correctObstacle, putRight } from './correct.ts';
import type { PipelineState } from './state.ts';

const EXPERIMENT: Event = { kind: 'experiment' };

/** What stands against a command now; null when it can be done. */
export function commandObstacle(state: PipelineState, command: Command): Obstacle | null {
  switch (command.say) {
    case 'log-now':
    case 'average':
      if (state.openTrialId !== null) return notNow('logged-already', String(state.openTrialId));
      if (command.say === 'average') return averageObstacle(state, 'cycles');
      return openPlateau(state.detector) === null ? averageObstacle(state, 'now') : null;
    case 'fan-is-on':
      if (!command.on) return null;
      if (state.verdict?.rotorStill === false) return notNow('turns');
      return averageObstacle(state, 'now');
    case 'key-in':
    case 'bring-in':
      return obstacleByHand(state, command);
    case 'correct':
      return correctObstacle(state.book, command);
    case 'relabel':
      return relabelObstacle(state.conductor.ledger, command);
    case 'undo':
      return state.conductor.ledger.undos.length === 0 ? notNow('nothing-to-undo') : null;
    default:
      return obstacleTo(state.conductor, command, state.book.trials);
  }
}

function averageObstacle(state: PipelineState, span: Span): Obstacle | null {
  return averageOf(state, span) === null ? notNow('too-little') : null;
}

/** No reading counts in two trials. */
function averageOf({ detector, book, recordingId }: PipelineState, span: Span): Plateau | null {
  const measured = book.trials.filter((one) => one.recordingId === recordingId && !madeByHand(one));
  return averageNow(detector, span, Math.max(-Infinity, ...measured.map(({ end_s }) => end_s)));
}

export function takeCommand(
  state: PipelineState,
  command: Command,
  at_s: number,
): readonly Event[] {
  const obstacle = commandObstacle(state, command);
  if (obstacle !== null) {
    return [{ kind: 'notice', notice: { code: 'orphan-command', ...obstacle } }];
  }
  const trials = carryOut(state, command, at_s);
  return [...trials.map((trial): Event => ({ kind: 'trial', trial })), EXPERIMENT];
}

/** @returns the trials that it made or changed */
function carryOut(state: PipelineState, command: Command, at_s: number): readonly Trial[] {
  const { conductor, book } = state;
  switch (command.say) {
    case 'log-now':
      return logNow(state, at_s);
    case 'average':
      return make(state, { what: 'average', basis: 'average', span: 'cycles' }, at_s);
    case 'fan-is-on':
      return takeFan(state, command.on, at_s);
    case 'key-in':
      return [keyIn(state, command, at_s)];
    case 'bring-in':
      return importRows(state, command, at_s);
    case 'correct':
      return putRight(state, command);
    case 'relabel': {
      const { plan } = conductor.ledger;
      if (plan !== null) rememberRelabel(conductor, relabelBack(plan, command));
      return relabel(conductor, book, command);
    }
    case 'undo':
      return undoLast(conductor, book);
    default:
      follow(conductor, command, book.trials);
      return [];
  }
}

/** A steady stretch that is open is logged as it stands; else the last seconds, as they are. */
function logNow(state: PipelineState, at_s: number): readonly Trial[] {
  const plateau = openPlateau(state.detector);
  if (plateau === null) {
    return make(state, { what: 'log-now', basis: 'window', span: 'now' }, at_s);
  }
  const trial = enter(state, deriveTrial(plateau, 'logged', true), at_s);
  state.openTrialId = trial.id;
  rememberMade(state.conductor, 'log-now', [trial]);
  return [trial];
}

/** Without an anemometer only a person can tell a rotor that does not turn from a fan that is off. */
function takeFan(state: PipelineState, on: boolean, at_s: number): readonly Trial[] {
  const { conductor } = state;
  if (conductor.question?.kind === 'is-fan-on') conductor.question = null;
  if (!on) return [];
  if (conductor.phase === 'ready') conductor.phase = 'running';
  return make(state, { what: 'fan-is-on', basis: 'said', span: 'now' }, at_s);
}

interface Made {
  readonly what: 'log-now' | 'average' | 'fan-is-on';
  readonly basis: Trial['basis'];
  readonly span: Span;
}

function make(
  state: PipelineState,
  { what, basis, span }: Made,
  at_s: number,
): readonly Trial[] {
  const plateau = averageOf(state, span);
  if (plateau === null) return [];
  const trial = enter(state, deriveTrial(plateau, 'final', true, basis), at_s);
  rememberMade(state.conductor, what, [trial]);
  return [trial];
}

/** With what its readings hold that no mean of them does. */
export function withRipple({ voltages }: PipelineState, derived: DerivedTrial): DerivedTrial {
  if (derived.rotorStill || derived.voltage_V === null) return derived;
  return { ...derived, ripple: rippleBetween(voltages, derived) };
}

/** Enters a new trial into the book, given to the run that it belongs to. */
export function enter(state: PipelineState, means: DerivedTrial, at_s: number): Trial {
  const derived = withRipple(state, means);
  const { recordingId, origin, conductor, book } = state;
  const where = { recordingId, recorded_s: at_s, origin, ...correctionsInUse(state.reader) };
  const trial = enterTrial(book, derived, { ...where, ...attributionOf(conductor, derived) });
  noteTrial(conductor, trial);
  noteAir(state);
  return trial;
}
