/**
 * What readings look like when a rig is wired or placed wrong. Each rule looks at the newest second
 * and those before it, and says whether it is so, is not so, or can't be told now.
 */
import type { RigHeard } from '../experiment/conductor/rig-heard.ts';
import type { Finding, FindingKind } from './finding.ts';
import { WATCHED, type ChannelSecond, type Second, type Watched } from './seconds.ts';

/** What the rules know. */
export interface Known {
  /** Oldest first, at most `KEPT_s`, without a gap; the newest last. */
  readonly seconds: readonly Second[];
  /** The largest mean of a second so far, without its sign. */
  readonly largest: Readonly<Record<Watched, number>>;
  readonly highest: Readonly<Record<Watched, number>>;
  readonly rig: RigHeard;
}

export const KEPT_s = 40;

type About = Pick<Finding, 'channel' | 'value'>;

export interface Rule {
  readonly kind: FindingKind;
  /** It must be so for this long, s. */
  readonly holds_s: number;
  /** null: it can't be told now; false: it is not so. */
  look(known: Known): About | false | null;
}

/** Below these nothing is concluded from a reading, V, A and m/s. */
const LEAST: Readonly<Record<Watched, number>> = {
  voltage_V: 0.05,
  current_A: 1e-3,
  windSpeed_mps: 0.5,
};
/**
 * A bench-top rig with a small rotor and a lamp gives no more, V, A and m/s. Even a wind of 10 m/s
 * lets a rotor 0.6 m across take 100 W at most (16/27 of ½ρAv³: Betz), 5 A through 4 Ω; 60 V is
 * where direct voltage may begin to hurt (common practice, no source); a fan blows 10 m/s at most.
 */
export const MOST: Readonly<Record<Watched, number>> = {
  voltage_V: 60,
  current_A: 5,
  windSpeed_mps: 40,
};
/** As a share of the largest reading: more than this at rest shows in every result. */
const ZERO_SHARE = 0.01;
/** For this long the wind must be off before what is still read counts as an offset, s. */
const WINDLESS_S = 20;
/** No current, or no voltage, as a share of the largest. */
const NOTHING_SHARE = 0.02;
/** For this long a channel must give the same number, while the other moves by such a share. */
const SAME_S = 5;
const MOVED_SHARE = 0.1;
/** At the top of its range it has many steps: it should have moved by some of them. */
const MOVED_SHARE_AT_TOP = 0.05;
/** Of a reading that steadily turns. */
const STEADY_SHARE = 0.1;
/** So long in the wind before it started, s. */
const FLICK_AFTER_S = 8;
const HUM_SHARE = 0.01;
const HUM_ABOVE_NOISE = 4;

export const RULES: readonly Rule[] = [
  { kind: 'zero-off', holds_s: 3, look: zeroOff },
  { kind: 'signs-differ', holds_s: 3, look: signsDiffer },
  { kind: 'no-current', holds_s: 4, look: (known) => oneWithout(known, 'voltage_V', 'current_A') },
  { kind: 'no-voltage', holds_s: 4, look: (known) => oneWithout(known, 'current_A', 'voltage_V') },
  { kind: 'stuck', holds_s: 1, look: (known) => sameWhileOtherMoves(known, false) },
  { kind: 'clipped', holds_s: 1, look: (known) => sameWhileOtherMoves(known, true) },
  { kind: 'wind-unread', holds_s: 8, look: windUnread },
  { kind: 'needs-flick', holds_s: 1, look: needsFlick },
  { kind: 'too-much', holds_s: 2, look: tooMuch },
  { kind: 'mains-hum', holds_s: 4, look: mainsHum },
];

function newest({ seconds }: Known, channel: Watched): ChannelSecond | null {
  return seconds.at(-1)?.channels[channel] ?? null;
}

/** The means of the last so many seconds; null where there are not so many, or one is missing. */
function lastMeans({ seconds }: Known, channel: Watched, count: number): number[] | null {
  if (seconds.length < count) return null;
  const means = seconds.slice(-count).flatMap((one) => one.channels[channel]?.mean ?? []);
  return means.length === count ? means : null;
}

function spread(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

function isClear({ largest }: Known, channel: Watched, mean: number): boolean {
  return Math.abs(mean) > Math.max(LEAST[channel], ZERO_SHARE * largest[channel]);
}

/** What a rotor gives that turns well, and no offset is. */
function turningLevel({ largest }: Known, channel: 'voltage_V' | 'current_A'): number {
  return Math.max(4 * LEAST[channel], 0.3 * largest[channel]);
}

function isWindless(known: Known, count: number): boolean {
  const winds = lastMeans(known, 'windSpeed_mps', count);
  return winds !== null && winds.every((wind) => wind < LEAST.windSpeed_mps / 2);
}

/** At rest, or long after the wind has gone: what is read then and does not change is error. */
function zeroOff(known: Known): About | false | null {
  const { rig, largest } = known;
  const isStanding = rig.motion === 'standing';
  if (!isStanding && !isWindless(known, WINDLESS_S)) return null;
  const found = (['voltage_V', 'current_A'] as const).flatMap((channel) => {
    const means = lastMeans(known, channel, 5);
    // Before anything has run there is nothing that it could be small beside.
    if (means === null || largest[channel] <= LEAST[channel]) return [];
    const value = means.reduce((sum, one) => sum + one, 0) / means.length;
    // Where so much is read in no wind the rotor turns, and the anemometer does not.
    if (!isStanding && Math.abs(value) > turningLevel(known, channel)) return [];
    const isOff = Math.abs(value) > ZERO_SHARE * largest[channel];
    return isOff && spread(means) < STEADY_SHARE * Math.abs(value) ? [{ channel, value }] : [];
  });
  return found[0] ?? false;
}

function signsDiffer(known: Known): About | false | null {
  const [voltage, current] = [newest(known, 'voltage_V'), newest(known, 'current_A')];
  if (voltage === null || current === null) return null;
  const areClear =
    isClear(known, 'voltage_V', voltage.mean) && isClear(known, 'current_A', current.mean);
  if (!areClear) return null;
  if (voltage.mean * current.mean > 0) return false;
  const channel = voltage.mean < 0 ? 'voltage_V' : 'current_A';
  return { channel, value: Math.min(voltage.mean, current.mean) };
}

function oneWithout(known: Known, clear: Watched, missing: Watched): About | false | null {
  const [there, gone] = [newest(known, clear), newest(known, missing)];
  if (there === null || gone === null) return null;
  // Twice what is just clear: a cold lamp, or a rotor that begins to turn, gives little of either.
  const isThere = Math.abs(there.mean) > Math.max(4 * LEAST[clear], 0.2 * known.largest[clear]);
  if (!isThere) return null;
  const nothing = Math.max(LEAST[missing] / 5, NOTHING_SHARE * known.largest[missing]);
  if (Math.max(Math.abs(gone.low), Math.abs(gone.high)) > nothing) return false;
  return { channel: missing, value: there.mean };
}

/** A converter at its end gives its highest number while the current of the lamp still rises. */
function sameWhileOtherMoves(known: Known, isTop: boolean): About | false | null {
  let canTell = false;
  for (const [channel, other] of PAIRS) {
    const lasts = known.seconds.slice(-SAME_S).map(({ channels }) => channels[channel]);
    const moved = lastMeans(known, other, SAME_S);
    if (moved === null || lasts.length < SAME_S) continue;
    const share = isTop ? MOVED_SHARE_AT_TOP : MOVED_SHARE;
    const least = Math.max(share * known.largest[other], MOVED_SHARE * LEAST[other]);
    if (spread(moved) < least) continue;
    canTell = true;
    const value = lasts[0]?.low ?? 0;
    const isSame = lasts.every((one) => one !== null && one.low === value && one.high === value);
    const isAtTop = value !== 0 && Math.abs(value) >= known.highest[channel];
    if (isSame && value !== 0 && isAtTop === isTop) return { channel, value };
  }
  return canTell ? false : null;
}

const PAIRS = [
  ['voltage_V', 'current_A'],
  ['current_A', 'voltage_V'],
] as const;

function windUnread(known: Known): About | false | null {
  const voltages = lastMeans(known, 'voltage_V', 4);
  const wind = newest(known, 'windSpeed_mps');
  if (voltages === null || wind === null) return null;
  if (wind.high >= LEAST.windSpeed_mps) return false;
  const [least] = voltages.map(Math.abs).sort((a, b) => a - b);
  const turns = (least ?? 0) > turningLevel(known, 'voltage_V');
  // A rotor that runs down in no wind slows all the while.
  if (!turns || spread(voltages) > 0.02 * Math.abs(voltages[0] ?? 0)) return null;
  return { channel: 'windSpeed_mps', value: voltages.at(-1) ?? null };
}

/** Nothing turned in a steady wind for long, then it did, in the same wind. */
function needsFlick(known: Known): About | false | null {
  const { seconds } = known;
  const now = Math.abs(newest(known, 'voltage_V')?.mean ?? 0);
  if (now < turningLevel(known, 'voltage_V')) return null;
  const isStill = ({ channels }: Second): boolean =>
    Math.abs(channels.voltage_V?.mean ?? Infinity) < LEAST.voltage_V / 2;
  const last = seconds.findLastIndex(isStill);
  if (last < 0 || seconds.length - last > FLICK_AFTER_S) return null;
  const waited = seconds.slice(Math.max(last - FLICK_AFTER_S + 1, 0), last + 1);
  const windy = [...waited, ...seconds.slice(-1)];
  const winds = windy.map(({ channels }) => channels.windSpeed_mps?.mean ?? 0);
  const isSteady = spread(winds) < STEADY_SHARE * Math.max(...winds);
  const isWindy = Math.min(...winds) > LEAST.windSpeed_mps;
  const isLong = waited.length === FLICK_AFTER_S && waited.every(isStill);
  return isLong && isSteady && isWindy ? { channel: null, value: waited.length } : false;
}

function tooMuch(known: Known): About | false | null {
  let canTell = true;
  for (const channel of WATCHED) {
    const value = newest(known, channel)?.mean ?? known.seconds.at(-1)?.beyond[channel] ?? null;
    if (value !== null && Math.abs(value) > MOST[channel]) return { channel, value };
    const wasRead = known.seconds.some(({ channels, beyond }) => {
      return channels[channel] !== null || beyond[channel] !== null;
    });
    if (value === null && wasRead) canTell = false;
  }
  return canTell ? false : null;
}

function mainsHum(known: Known): About | false | null {
  const second = known.seconds.at(-1);
  const voltage = second?.channels.voltage_V ?? null;
  if (second === undefined || second.hum === null || voltage === null) return null;
  const { amplitude_V, beside_V, frequency_Hz } = second.hum;
  const isHum =
    amplitude_V > HUM_SHARE * Math.max(known.largest.voltage_V, LEAST.voltage_V) &&
    amplitude_V > HUM_ABOVE_NOISE * beside_V;
  return isHum ? { channel: 'voltage_V', value: frequency_Hz } : false;
}
