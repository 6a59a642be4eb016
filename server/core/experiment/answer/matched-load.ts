/** Where the load is what is varied: at how many ohms it gets the most, from all trials together. */
import type { Fitted } from '../../rotor/fitting/fitted.ts';
import {
  NO_SOURCE_LINE,
  sourceLine,
  type LoadedStep,
  type SourceLine,
} from '../../rotor/fitting/source-line.ts';
import { expandedUncertainty } from '../../metrology/format.ts';
import { meanOf } from '../../metrology/type-a/series.ts';
import type { Optimum } from '../comparison/comparison-schema.ts';
import type { CurvePoint } from '../comparison/curve.ts';
import { edgeAt } from '../comparison/optimum-kinds.ts';
import { wordsFor } from '../comparison/words.ts';
import type { Factor } from '../plan/plan.ts';
import { ONE_WIND } from '../readings-of-trials.ts';
import type { TriedSetting } from './settings.ts';

/** Why it can't be told. */
export const NO_MATCH = [...NO_SOURCE_LINE, 'wind differed'] as const;

export interface KnownMatch {
  readonly kind: 'known';
  readonly emf_V: Fitted;
  /** Of rotor and generator together, in this wind; a load of as many ohms gets the most. */
  readonly resistance_Ohm: Fitted;
  /** Whether every setting has read the wind: else it is taken to have been the same. */
  readonly isWindRead: boolean;
  /** Null where the loads have names without ohms. */
  readonly optimum: Optimum | null;
  readonly curve: readonly CurvePoint[] | null;
}

export type MatchedLoad =
  | KnownMatch
  | { readonly kind: 'none'; readonly why: (typeof NO_MATCH)[number] };

interface ReadSetting extends LoadedStep {
  readonly wind_mps: number | null;
}

/** Null where the load is not what is varied, or not alone. */
export function matchedLoad(
  factor: Factor,
  settings: readonly TriedSetting[],
): MatchedLoad | null {
  if (factor.kind !== 'load' || settings.some(({ seat }) => seat.beside > 0)) return null;
  const read = settings.flatMap(readingsOf);
  const winds = windsOf(read);
  if (winds !== null && !isOneWind(winds)) return { kind: 'none', why: 'wind differed' };
  const line = sourceLine(read);
  if (typeof line === 'string') return { kind: 'none', why: line };
  const { emf_V, resistance_Ohm } = line;
  const known = { kind: 'known', emf_V, resistance_Ohm, isWindRead: winds !== null } as const;
  const tried = triedLoads(factor, read);
  if (tried === null) return { ...known, optimum: null, curve: null };
  return { ...known, optimum: optimumOf(factor, line, tried), curve: curveOf(line, tried) };
}

/** Of one setting, the mean of its trials in which the rotor turned. */
function readingsOf({ seat, trials }: TriedSetting): ReadSetting[] {
  const turning = trials.filter(({ rotorStill }) => !rotorStill);
  const meansOf = (quantity: 'voltage_V' | 'current_A' | 'windSpeed_mps'): number | null => {
    const values = turning.flatMap((trial) => trial[quantity]?.value ?? []);
    return values.length === 0 || values.length < turning.length ? null : meanOf(values);
  };
  const [voltage, current] = [meansOf('voltage_V'), meansOf('current_A')];
  if (voltage === null || current === null) return [];
  // A reversed cable turns the sign of either, and of nothing else.
  const step = { voltage_V: Math.abs(voltage), current_A: Math.abs(current) };
  return [{ level: seat.level, ...step, wind_mps: meansOf('windSpeed_mps') }];
}

/** The mean wind of each load; null unless all of its settings have read it. */
function windsOf(read: readonly ReadSetting[]): readonly number[] | null {
  const byLevel = new Map<number, number[]>();
  for (const { level, wind_mps } of read) {
    if (wind_mps === null) return null;
    byLevel.set(level, [...(byLevel.get(level) ?? []), wind_mps]);
  }
  return [...byLevel.values()].map(meanOf);
}

/** The voltage goes about with the wind: what it differs by would be taken for ohms. */
function isOneWind(winds_mps: readonly number[]): boolean {
  if (winds_mps.length === 0) return true;
  const usual_mps = meanOf(winds_mps);
  return winds_mps.every((wind) => Math.abs(wind - usual_mps) <= ONE_WIND * usual_mps);
}

/** A load that was tried: as it is called, and as it was read, Ω. */
interface TriedLoad {
  readonly said_Ohm: number;
  readonly read_Ohm: number;
}

/** The smallest and the largest; null where one of them is a name. */
function triedLoads(
  { levels }: Factor,
  read: readonly ReadSetting[],
): { readonly first: TriedLoad; readonly last: TriedLoad } | null {
  const loads = read.map(({ level, voltage_V, current_A }): TriedLoad => {
    return { said_Ohm: levels[level]?.value ?? NaN, read_Ohm: voltage_V / current_A };
  });
  const isNumber = loads.every(({ said_Ohm }) => said_Ohm > 0);
  const inOrder = loads.toSorted((a, b) => a.said_Ohm - b.said_Ohm);
  const [first, last] = [inOrder[0], inOrder.at(-1)];
  return isNumber && first && last ? { first, last } : null;
}

type Tried = NonNullable<ReturnType<typeof triedLoads>>;

/** Never outside of what was tried. */
function optimumOf({ key }: Factor, line: SourceLine, { first, last }: Tried): Optimum {
  const method = 'load of as many ohms as the source, from a line through voltage and current';
  const words = wordsFor({ factor: key, response: 'power_W' });
  const { value: at } = line.resistance_Ohm;
  if (at <= first.read_Ohm) return edgeAt(first.said_Ohm, method, words);
  if (at >= last.read_Ohm) return edgeAt(last.said_Ohm, method, words);
  const half = expandedUncertainty(line.resistance_Ohm) ?? 0;
  const [low, high] = [Math.max(at - half, first.said_Ohm), Math.min(at + half, last.said_Ohm)];
  const place = (value: number): string => words.place(value, half);
  const statement = `The most power lies near ${place(at)}: somewhere from ${place(low)} to ${place(high)}.`;
  return { kind: 'interior', at, low, high, method, statement };
}

const POINTS = 61;

/** In equal steps of the ratio: it bends most at small loads. */
function curveOf({ powerAt }: SourceLine, { first, last }: Tried): readonly CurvePoint[] {
  return Array.from({ length: POINTS }, (_, i) => {
    const at = first.said_Ohm * (last.said_Ohm / first.said_Ohm) ** (i / (POINTS - 1));
    return { at, ...powerAt(at) };
  });
}
