/** The detector's state, and what follows from it alone. */
import type { NoiseModel } from '../../metrology/type-a/noise-model.ts';
import type { Learnt, LearntNoise } from '../learnt.ts';
import type { Verdict } from '../plateau.ts';
import {
  COLUMNS,
  createBlockBuilder,
  CURRENT,
  WIND,
  type Block,
  type BlockBuilder,
} from './block.ts';
import type { Departure } from './departure.ts';
import type { Excursions } from './excursion.ts';
import { createHistory, type History } from './history.ts';
import { createLagMemory, type LagMemory } from './lag.ts';
import { createNoiseMemory, expectedNoise, type NoiseMemory } from './noise-memory.ts';
import type { PlateauRecord } from './record.ts';
import type { Track } from './track.ts';

/** When something was last looked for, and whether it was seen. */
export interface CycleLook {
  time_s: number;
  seen: boolean;
}

/** What is looked at in one judgement: the blocks since the last change, channel by channel. */
export interface Sight {
  /** All that is remembered; what is looked at begins at `from` and is `count` long. */
  readonly blocks: readonly Block[];
  readonly from: number;
  readonly count: number;
  readonly tracks: readonly Track[];
  readonly period_s: number;
  readonly still: boolean;
  readonly time_s: number;
}

/** What was seen at one moment, and what was decided by it. */
export interface Look {
  readonly sight: Sight;
  readonly verdict: Verdict;
}

/** Opaque to callers, mutable, owned by them. Bounded by the longest window. */
export interface Detector {
  readonly builder: BlockBuilder;
  readonly history: History;
  readonly excursions: Excursions;
  /** Largest block mean of each column. */
  readonly peaks: Float64Array;
  lag: LagMemory;
  /** What the session has taught of each column's noise. */
  readonly memories: NoiseMemory[];
  /** The same for means over whole plateaus, which slow wander moves too. */
  readonly meanMemories: NoiseMemory[];
  /** While a plateau is open: the session's, and what its own stretches have added. */
  local: NoiseMemory[];
  /** The open plateau's noise has been taken in up to here. */
  learnt_s: number;
  /** Present belief in each column's noise, in units of its level, and when it was formed. */
  readonly beliefs: NoiseModel[];
  beliefs_s: number;
  /** The same of power, for the running mean that people are shown. */
  powerNoise: NoiseModel | null;
  power_s: number;
  /** For a cycle, to decide by and to tell people of: these are looked for at other moments. */
  readonly deciding: CycleLook;
  readonly telling: CycleLook;
  record: PlateauRecord | null;
  /** What was seen and decided last; null while there is nothing to see. */
  last: Look | null;
  /** Nothing before this is part of what comes next: the last change. */
  origin_s: number;
  /** When the rotor last started to turn: a rig that warms up droops most in its first minute. */
  started_s: number;
  /** Whether the rotor stood still at the last block. */
  rested: boolean;
  /** How many blocks in a row have found everything flat. */
  passes: number;
  /** How the last plateau was left; after a creep, stillness must be shown more clearly. */
  manner: Departure['manner'];
  suspicious: boolean;
  /** For how long the open plateau has shown changes that are not clear. */
  doubted_s: number;
  /** Since when it has been trying to settle; NaN while there is nothing to try. */
  tryingSince_s: number;
  /** While trying: whether a slow ramp is seen to go on. */
  ramps: boolean;
}

/** A change smaller than this share of the reading is no change. */
export const TOLERANCE = 0.01;
/** The air is never as steady as the reading that it drives. */
const WIND_TOLERANCE = 0.03;
/** A generator's voltage below this, or below 2 % of the largest seen, is offset and noise. */
const STILL_VOLTAGE_V = 0.005;
const STILL_SHARE = 0.02;
/** No lamp nor load of use here lets so little through: nothing is connected. */
const OPEN_CURRENT_A = 5e-5;

export function createState(learnt: Learnt | null): Detector {
  const memories = COLUMNS.map((quantity) => createNoiseMemory(quantity));
  const state: Detector = {
    builder: createBlockBuilder(),
    history: createHistory(),
    excursions: { count: 0 },
    peaks: new Float64Array(COLUMNS.length),
    lag: createLagMemory(),
    memories,
    meanMemories: COLUMNS.map((quantity) => createNoiseMemory(quantity)),
    local: [],
    learnt_s: 0,
    beliefs: memories.map((memory) => expectedNoise(memory, 0)),
    beliefs_s: -Infinity,
    powerNoise: null,
    power_s: -Infinity,
    deciding: { time_s: -Infinity, seen: false },
    telling: { time_s: -Infinity, seen: false },
    record: null,
    last: null,
    origin_s: -Infinity,
    started_s: -Infinity,
    rested: true,
    passes: 0,
    manner: 'step',
    suspicious: false,
    doubted_s: 0,
    tryingSince_s: NaN,
    ramps: false,
  };
  if (learnt !== null) recall(state, learnt);
  return state;
}

function recall(state: Detector, learnt: Learnt): void {
  state.lag = { ...learnt.lag };
  COLUMNS.forEach((quantity, column) => {
    const known = learnt.quantities[quantity];
    if (known === undefined) return;
    state.peaks[column] = known.peak;
    state.builder.resolution[column] = known.resolution ?? Infinity;
    state.builder.steps[column] = known.resolution === null ? 0 : STEPS_NEEDED;
    state.memories[column] = { ...state.memories[column]!, ...known.noise };
    state.meanMemories[column] = { ...state.meanMemories[column]!, ...known.meanNoise };
  });
}

export function learntFrom(state: Detector): Learnt {
  const quantities: Learnt['quantities'] = {};
  COLUMNS.forEach((quantity, column) => {
    const peak = state.peaks[column]!;
    if (peak === 0) return;
    quantities[quantity] = {
      resolution: resolutionOf(state, column) || null,
      peak,
      noise: learntNoise(state.memories[column]!),
      meanNoise: learntNoise(state.meanMemories[column]!),
    };
  });
  return { version: 2, lag: { ...state.lag }, quantities };
}

function learntNoise(memory: NoiseMemory): LearntNoise {
  const { logLevel, logTime, logShare, precision, logOwn } = memory;
  return { logLevel, logTime, logShare, precision, logOwn };
}

/** Forgets what is going on; what was learnt stays. */
export function forgetPresent(state: Detector): void {
  state.excursions.count = 0;
  state.record = null;
  state.passes = 0;
  state.origin_s = -Infinity;
  state.rested = true;
  state.suspicious = false;
  state.beliefs_s = state.power_s = -Infinity;
  state.last = null;
  for (const look of [state.deciding, state.telling]) {
    look.time_s = -Infinity;
    look.seen = false;
  }
  state.tryingSince_s = NaN;
  state.ramps = false;
}

/** The few steps of a quiet instrument are steps of the rig; only of many is the smallest its own. */
const STEPS_NEEDED = 10;

/** Smallest step of a column's readings; 0 while unknown. */
export function resolutionOf({ builder }: Detector, column: number): number {
  return builder.steps[column]! < STEPS_NEEDED ? 0 : builder.resolution[column]!;
}

/** Steps that a range is taken to have while nothing is known: those of a 10-bit converter. */
const ASSUMED_STEPS = 1024;

/**
 * The step that readings must be taken to have: the smallest seen, or while that is unknown that of
 * a coarse converter whose range just held the largest reading. Constant readings are not exact.
 */
export function stepOf(state: Detector, column: number): number {
  const assumed = Math.max(state.peaks[column]!, column === 0 ? STILL_VOLTAGE_V : 0);
  return resolutionOf(state, column) || assumed / ASSUMED_STEPS;
}

/** What counts as no change, as a share of the level: 1 % or one converter step. */
export function toleranceOf(state: Detector, column: number, level: number): number {
  const share = column === WIND ? WIND_TOLERANCE : TOLERANCE;
  return Math.max(share, resolutionOf(state, column) / level);
}

/** A voltage at most this far from zero is that of a rotor that stands still. */
export function stillLimit_V(state: Detector): number {
  const step = resolutionOf(state, 0);
  return Math.max(STILL_VOLTAGE_V, 1.5 * step, STILL_SHARE * state.peaks[0]!);
}

/** A current at most this far from zero is that of an open circuit. */
export function openLimit_A(state: Detector): number {
  const step = resolutionOf(state, CURRENT);
  return Math.max(OPEN_CURRENT_A, 1.5 * step, STILL_SHARE * state.peaks[CURRENT]!);
}
