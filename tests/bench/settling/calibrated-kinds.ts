/** The kinds of the calibrated recordings: traits of the signal, and what is done over and over. */
import type { ColouredNoiseParameters } from '#core/virtual-rig/coloured-noise.ts';
import { between, chance, logBetween, type Random } from '#core/virtual-rig/random.ts';
import type { CalibratedRotor } from './calibrated-course.ts';
import {
  dwell,
  hold,
  perhapsStop,
  plateauLength_s,
  ramp,
  step,
  swing,
  type CalibratedSession,
} from './calibrated-session.ts';

/** Everything relative to the reading or to full scale, where no unit is named. */
export interface CalibratedTraits extends CalibratedRotor {
  readonly full_V: number;
  readonly full_A: number;
  readonly full_mps: number;
  /** The converter's step, of voltage. */
  readonly step: number;
  /** Of the voltage, however it arises. */
  readonly noise: ColouredNoiseParameters;
  readonly wander: ColouredNoiseParameters;
  /** Weakest and strongest gusts, where noise is what the rotor makes of them. */
  readonly gustLimits: readonly [number, number];
  /** Of the wind's reading alone; its memory is that of the gusts. */
  readonly windNoise: ColouredNoiseParameters;
  readonly white: number;
  readonly ripple: number;
  /** At a level of one sixth. */
  readonly rippleRate_Hz: number;
  readonly spikeRate_Hz: number;
  readonly dropoutRate_Hz: number;
  readonly anemometerLag_s: number;
  /** Levels are set by the fan; otherwise by something else, in one and the same wind. */
  readonly fanSetsLevel: boolean;
}

export interface CalibratedKind {
  readonly traits?: (random: Random) => Partial<CalibratedTraits>;
  /** One change and what follows it; called until the session is full. */
  readonly play: (session: CalibratedSession) => void;
}

/** An ordinary change of level, now and then with a stop before the next. */
function another(session: CalibratedSession): void {
  step(session, 0.15, 0.7);
  perhapsStop(session);
}

function ordinary(session: CalibratedSession): void {
  dwell(session);
  another(session);
}

function smallSteps(session: CalibratedSession): void {
  dwell(session);
  step(session, 0.03, 0.05);
}

function cycles(session: CalibratedSession): void {
  ordinary(session);
  swing(session);
  another(session);
}

function ramps(session: CalibratedSession): void {
  ordinary(session);
  ramp(session);
  if (chance(session.random, 0.5)) another(session);
  else perhapsStop(session);
}

function slips(session: CalibratedSession): void {
  dwell(session);
  session.level *= 1 - between(session.random, 0.05, 0.2);
  hold(session, plateauLength_s(session));
  // Time to set the blades anew.
  if (session.level < 0.35) session.level = 0.9;
  another(session);
}

/** Most changes come when the last has hardly settled. */
function hasty(session: CalibratedSession): void {
  const { random, lag_s } = session;
  if (chance(random, 0.6)) hold(session, between(random, 2, 5) + 3.5 * lag_s);
  else dwell(session);
  another(session);
}

export const CALIBRATED_KINDS: Readonly<Record<string, CalibratedKind>> = {
  steps: { play: ordinary },
  'strong turbulence': {
    traits: (random) => ({
      noise: {
        standardDeviation: between(random, 0.03, 0.05),
        correlationTime_s: logBetween(random, 0.15, 1),
      },
      gustLimits: [0.1, 0.3],
    }),
    play: ordinary,
  },
  'small steps': { play: smallSteps },
  spikes: { traits: (random) => ({ spikeRate_Hz: logBetween(random, 0.1, 1) }), play: ordinary },
  droop: { traits: (random) => ({ droop: between(random, 0.01, 0.03) }), play: ordinary },
  'limit cycle': { play: cycles },
  'slow ramp': { play: ramps },
  slip: { play: slips },
  hasty: { play: hasty },
  'coarse ADC': { traits: (random) => ({ step: logBetween(random, 0.01, 0.03) }), play: ordinary },
  ripple: { traits: (random) => ({ ripple: logBetween(random, 0.01, 0.1) }), play: ordinary },
  dropouts: {
    traits: (random) => ({ dropoutRate_Hz: logBetween(random, 0.03, 0.2) }),
    play: ordinary,
  },
  wander: {
    traits: (random) => ({
      wander: {
        standardDeviation: logBetween(random, 0.006, 0.015),
        correlationTime_s: between(random, 1, 3),
      },
    }),
    play: ordinary,
  },
};
