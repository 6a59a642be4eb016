/** The kinds of the second generator: traits of the signal, and the pieces of a session. */
import type { ColouredNoiseParameters } from '#core/virtual-rig/coloured-noise.ts';
import { between, chance, logBetween, type Random } from '#core/virtual-rig/random.ts';
import type { Lags, Piece } from './second-course.ts';

/** Everything relative to the reading or to full scale, where no unit is named. */
export interface Traits {
  readonly full_V: number;
  readonly step: number;
  readonly lag_s: number;
  readonly droop: number;
  readonly noises: readonly ColouredNoiseParameters[];
  readonly white: number;
  /** How much the noise itself swells and fades, in logarithm, over some seconds. */
  readonly swell: number;
  readonly ripple: number;
  readonly hum: number;
  readonly spikeShare_per_s: number;
  readonly gapShare_per_s: number;
  /** null: no anemometer. */
  readonly windStep_mps: number | null;
  readonly windHold_s: number;
  /** Current goes with this power of voltage; null: not measured. */
  readonly currentExponent: number | null;
}

export interface SecondKind {
  readonly traits?: (random: Random) => Partial<Traits>;
  pieces(random: Random, lags: Lags): Piece[];
}

const SESSION_S = 200;

/** Goes on adding what `next` gives until the session is full; starts at rest. */
function session(random: Random, lags: Lags, next: (level: number) => Piece[]): Piece[] {
  const pieces: Piece[] = [rest(random)];
  let length_s = 0;
  while (length_s < SESSION_S) {
    for (const piece of next(pieces.at(-1)!.level)) {
      const settling_s = piece.use === 'level' ? settlingTime_s(pieces.at(-1)!, piece, lags) : 0;
      pieces.push({ ...piece, length_s: piece.length_s + settling_s });
      length_s += piece.length_s + settling_s;
    }
  }
  return pieces;
}

function settlingTime_s(before: Piece, piece: Piece, lags: Lags): number {
  if (piece.abrupt) return 0;
  const change = Math.abs(piece.level - before.level) / piece.level;
  return (lags.rise_s + lags.lead_s) * Math.log(Math.max(1, change / 0.01));
}

function hold(level: number, length_s: number, extra: Partial<Piece> = {}): Piece {
  return {
    length_s,
    use: 'level',
    wind: true,
    level,
    drift_per_s: 0,
    swing: 0,
    period_s: 1,
    lean: 0,
    abrupt: false,
    ...extra,
  };
}

function rest(random: Random): Piece {
  return hold(0, between(random, 3, 14), { use: 'still', wind: false });
}

function ordinaryLength_s(random: Random): number {
  return logBetween(random, 6, 60);
}

/** Another level, 10 % or more away, perhaps after a stop. */
function ordinary(random: Random, level: number, length_s: number): Piece[] {
  let next = logBetween(random, 0.15, 1);
  while (Math.abs(next - level) < 0.1 * level) next = logBetween(random, 0.15, 1);
  const stops = level > 0 && chance(random, 0.35);
  return [...(stops ? [rest(random)] : []), hold(next, length_s)];
}

function steps(random: Random, lags: Lags): Piece[] {
  return session(random, lags, (level) => ordinary(random, level, ordinaryLength_s(random)));
}

/** An ordinary plateau, then something else, again and again. */
function alternating(random: Random, lags: Lags, next: (level: number) => Piece[]): Piece[] {
  return session(random, lags, (level) => {
    const pieces = ordinary(random, level, ordinaryLength_s(random));
    return [...pieces, ...next(pieces.at(-1)!.level)];
  });
}

function smallSteps(random: Random, lags: Lags): Piece[] {
  return session(random, lags, (level) => {
    if (level === 0) return [hold(between(random, 0.4, 1), ordinaryLength_s(random))];
    const change = between(random, 0.03, 0.05) * (chance(random, 0.5) ? 1 : -1);
    return [hold(level * (1 + change), logBetween(random, 8, 50))];
  });
}

function cycles(random: Random, lags: Lags): Piece[] {
  return alternating(random, lags, (level) => [
    hold(level, between(random, 15, 45), {
      use: 'never',
      swing: between(random, 0.04, 0.12),
      period_s: between(random, 2, 7),
      lean: between(random, -0.8, 0.8),
    }),
  ]);
}

function ramps(random: Random, lags: Lags): Piece[] {
  return alternating(random, lags, (level) => {
    const rate = logBetween(random, 0.002, 0.012) * (level > 0.5 ? -1 : 1);
    const length_s = between(random, 15, 50);
    const reached = level * Math.exp(rate * length_s);
    const ramp = hold(level, length_s, { use: 'never', drift_per_s: rate });
    return [ramp, hold(reached, ordinaryLength_s(random))];
  });
}

function slips(random: Random, lags: Lags): Piece[] {
  return alternating(random, lags, (level) => {
    const factor = 1 + between(random, 0.05, 0.3) * (chance(random, 0.5) ? 1 : -1);
    return [hold(level * factor, logBetween(random, 8, 40), { abrupt: chance(random, 0.3) })];
  });
}

function hasty(random: Random, lags: Lags): Piece[] {
  return session(random, lags, (level) =>
    ordinary(random, level, chance(random, 0.5) ? between(random, 0, 4) : ordinaryLength_s(random)),
  );
}

function bumps(random: Random, lags: Lags): Piece[] {
  return alternating(random, lags, (level) => [
    hold(level * between(random, 0.3, 0.8), logBetween(random, 0.6, 4), { use: 'never' }),
    hold(level, ordinaryLength_s(random)),
  ]);
}

function stills(random: Random, lags: Lags): Piece[] {
  return session(random, lags, (level) => [
    ...(chance(random, 0.5)
      ? [...ordinary(random, level, ordinaryLength_s(random)), rest(random)]
      : []),
    hold(0, between(random, 12, 40), { use: 'still', wind: true }),
    rest(random),
  ]);
}

export const SECOND_KINDS: Readonly<Record<string, SecondKind>> = {
  steps: { pieces: steps },
  'strong turbulence': {
    traits: (random) => ({
      noises: [
        {
          standardDeviation: between(random, 0.02, 0.045),
          correlationTime_s: between(random, 0.3, 1.2),
        },
        {
          standardDeviation: between(random, 0.002, 0.008),
          correlationTime_s: between(random, 1, 3),
        },
      ],
    }),
    pieces: steps,
  },
  'small steps': { pieces: smallSteps },
  spikes: {
    traits: (random) => ({ spikeShare_per_s: logBetween(random, 0.05, 1) }),
    pieces: steps,
  },
  droop: { traits: (random) => ({ droop: between(random, 0.01, 0.03) }), pieces: steps },
  'limit cycle': { pieces: cycles },
  'slow ramp': { pieces: ramps },
  slip: { pieces: slips },
  hasty: { pieces: hasty },
  'coarse ADC': { traits: (random) => ({ step: logBetween(random, 0.005, 0.02) }), pieces: steps },
  ripple: { traits: (random) => ({ ripple: between(random, 0.02, 0.1) }), pieces: steps },
  dropouts: {
    traits: (random) => ({ gapShare_per_s: logBetween(random, 0.03, 0.3) }),
    pieces: steps,
  },
  wander: {
    traits: (random) => ({
      noises: [
        {
          standardDeviation: logBetween(random, 0.002, 0.006),
          correlationTime_s: logBetween(random, 0.1, 1),
        },
        {
          standardDeviation: between(random, 0.006, 0.016),
          correlationTime_s: between(random, 1, 3),
        },
      ],
    }),
    pieces: steps,
  },
  disturbance: { pieces: bumps },
  stopped: {
    traits: (random) => ({ windStep_mps: logBetween(random, 0.01, 0.2) }),
    pieces: stills,
  },
};
