/** The kinds of recordings: what each asks of the rig, and what its operator does. */
import { steadyVoltage_V } from '#core/virtual-rig/steady-state.ts';
import { between, chance, logBetween, type Random } from '#core/virtual-rig/random.ts';
import type { RigWishes } from './rig-draw.ts';
import {
  act,
  anotherLevel,
  goTo,
  isOver,
  ordinaryChange,
  plateauLength_s,
  setBlades,
  settleFor,
  stop,
  stretch,
  timeConstant_s,
  type Script,
} from './script.ts';

export interface Kind {
  readonly wishes?: (random: Random) => Partial<RigWishes>;
  /** Plays one change and what follows it; called until the session is over. */
  readonly play: (script: Script) => void;
}

const ordinary = (script: Script): void => ordinaryChange(script, plateauLength_s(script));

export const KINDS: Readonly<Record<string, Kind>> = {
  steps: { play: ordinary },
  'strong turbulence': {
    wishes: (random) => ({
      noise: between(random, 0.02, 0.05),
      integralTime_s: between(random, 0.15, 0.3),
      timeConstant_s: logBetween(random, 0.5, 1.5),
    }),
    play: ordinary,
  },
  'small steps': { play: smallSteps },
  spikes: {
    wishes: (random) => ({ spikeRate_Hz: logBetween(random, 0.05, 1) }),
    play: ordinary,
  },
  droop: { wishes: (random) => ({ droop: between(random, 0.01, 0.03) }), play: ordinary },
  'limit cycle': {
    wishes: (random) => ({ timeConstant_s: logBetween(random, 0.5, 1.5) }),
    play: hunting,
  },
  'slow ramp': { play: slowRamp },
  slip: { play: slip },
  hasty: { play: hasty },
  'coarse ADC': {
    wishes: (random) => ({ converterStep: logBetween(random, 0.008, 0.025) }),
    play: ordinary,
  },
  ripple: { wishes: (random) => ({ ripple: between(random, 0.02, 0.1) }), play: ordinary },
  dropouts: {
    wishes: (random) => ({ dropoutRate_Hz: logBetween(random, 0.03, 0.3) }),
    play: ordinary,
  },
  wander: { wishes: (random) => ({ wander: between(random, 0.006, 0.016) }), play: ordinary },
  disturbance: { play: disturbance },
  stopped: { wishes: () => ({ anemometer: true }), play: stopped },
};

function smallSteps(script: Script): void {
  const { random } = script;
  if (script.level === 0) {
    goTo(script, between(random, 0.6, 1));
    return settleFor(script, script.level, plateauLength_s(script));
  }
  const up = script.level > 0.95 ? false : script.level < 0.5 || chance(random, 0.5);
  const change = script.level * between(random, 0.03, 0.05) * (up ? 1 : -1);
  goTo(script, script.level + change);
  settleFor(script, change, logBetween(random, 8, 45));
}

/** Change of voltage per change of wind, both relative. */
function windGain(script: Script): number {
  const { rig, wind_mps, angle_deg } = script;
  const at = (factor: number) =>
    steadyVoltage_V(rig.parameters.plant, { wind_mps: wind_mps * factor, angle_deg });
  return Math.log(at(1.01) / at(0.99)) / Math.log(1.01 / 0.99);
}

function hunting(script: Script): void {
  const { random } = script;
  ordinary(script);
  const period_s = between(random, 2, 7);
  const reading = between(random, 0.04, 0.12);
  const passed =
    windGain(script) / Math.hypot(1, (2 * Math.PI * timeConstant_s(script)) / period_s);
  act(script, { kind: 'hunting', amplitude: Math.min(0.6, reading / passed), period_s });
  stretch(script, 'never', between(random, 15, 45));
  act(script, { kind: 'hunting', amplitude: 0, period_s });
  if (chance(random, 0.5)) settleFor(script, reading * script.level, plateauLength_s(script));
}

function slowRamp(script: Script): void {
  const { random } = script;
  ordinary(script);
  const up = script.level < 0.7;
  const rate_per_s = logBetween(random, 0.002, 0.012) * (up ? 1 : -1);
  const longest_s = Math.abs(Math.log(up ? 1.2 / script.level : 0.35 / script.level) / rate_per_s);
  const gain = windGain(script);
  const length_s = Math.min(longest_s, between(random, 15, 60));
  act(script, { kind: 'creep', rate_per_s: rate_per_s / gain });
  stretch(script, 'never', length_s);
  act(script, { kind: 'creep', rate_per_s: 0 });
  script.level *= Math.exp(rate_per_s * length_s);
  settleFor(script, rate_per_s * timeConstant_s(script), plateauLength_s(script));
}

function slip(script: Script): void {
  const { random } = script;
  ordinaryChange(script, logBetween(random, 8, 30));
  const before = script.level;
  const slipped_deg = between(random, 2, 8) * (chance(random, 0.5) ? 1 : -1);
  setBlades(script, Math.min(60, Math.max(12, script.angle_deg + slipped_deg)));
  const { rig, wind_mps, angle_deg } = script;
  script.level = steadyVoltage_V(rig.parameters.plant, { wind_mps, angle_deg }) / script.nominal_V;
  settleFor(script, script.level - before, logBetween(random, 8, 30));
}

function hasty(script: Script): void {
  const { random } = script;
  if (chance(random, 0.4)) return ordinary(script);
  ordinaryChange(script, between(random, -1, 4));
}

function disturbance(script: Script): void {
  const { random } = script;
  ordinary(script);
  const passes = between(random, 0.3, 0.85);
  act(script, { kind: 'obstruction', passes });
  stretch(script, 'never', logBetween(random, 0.8, 4));
  act(script, { kind: 'obstruction', passes: 1 });
  settleFor(script, (1 - passes) * script.level, plateauLength_s(script));
}

/** Blades edge-on to the wind: nothing turns, and that is the result. */
function stopped(script: Script): void {
  const { random } = script;
  if (chance(random, 0.4)) {
    goTo(script, anotherLevel(script));
    settleFor(script, script.level, plateauLength_s(script));
    stop(script);
  }
  const before_deg = script.angle_deg;
  setBlades(script, 90);
  script.wind_mps = script.rig.wind_mps * between(random, 0.6, 1.2);
  act(script, { kind: 'fan', wind_mps: script.wind_mps });
  stretch(script, 'still', between(random, 12, 40));
  stop(script);
  setBlades(script, before_deg);
}

export function playSession(kind: Kind, script: Script): void {
  while (!isOver(script)) kind.play(script);
}
