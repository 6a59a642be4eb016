/** An experiment as the page sees it grow: trial after trial, with what it points at meanwhile. */
import { doubtsOf } from '#core/experiment/doubts/doubts.ts';
import { factorsOf } from '#core/experiment/plan/factors.ts';
import type { Plan, Run } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import type { ShownTrial } from '#core/experiment/trial.ts';
import type { Doubt } from '#core/experiment/view.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import type { Configuration } from './configurations.ts';

/** What goes wrong; trials count from 1. */
export interface Fault {
  /** This trial was set to the level beside it. */
  readonly slippedTrial?: number;
  /** Power falls by this share from the first trial to the last. */
  readonly fading?: number;
  /** From this trial on the wind is this share of what it was, and the power its cube. */
  readonly wind?: { readonly from: number; readonly share: number };
}

const WIND_MPS = 4;
/** How well a trial knows its own mean, as a share. */
const KNOWN_TO = 0.002;

/** What was ever pointed at, whether or not it was still pointed at in the end. */
export function everDoubted(configuration: Configuration, fault: Fault, seed: number): Doubt[] {
  const trials = trialsOf(configuration, fault, seed);
  return trials.flatMap((_, i) => doubtsOf(trials.slice(0, i + 1)));
}

export function trialsOf(configuration: Configuration, fault: Fault, seed: number): ShownTrial[] {
  const { plan } = configuration;
  const random = createRandom(seed);
  const runs = runsOf({ ...plan, seed });
  const rounds = new Map<number, number>();
  return runs.map((run, i) => {
    if (!rounds.has(run.round)) rounds.set(run.round, configuration.rounds * normal(random));
    const set = settingOf(run, configuration, i + 1 === fault.slippedTrial);
    const scatter = configuration.scatters[set]! * configuration.law(random);
    const windShare = i + 1 >= (fault.wind?.from ?? Infinity) ? fault.wind!.share : 1;
    const faded = 1 - ((fault.fading ?? 0) * i) / (runs.length - 1);
    const power = configuration.powers[set]! * faded * windShare ** 3;
    return trial(plan, run, i + 1, {
      power_W: Math.max(power * (1 + scatter + rounds.get(run.round)!), power / 100),
      wind_mps: WIND_MPS * windShare * (1 + configuration.wind * normal(random)),
    });
  });
}

function settingOf(run: Run, { powers }: Configuration, isSlipped: boolean): number {
  const [level = 0] = run.levels;
  if (!isSlipped) return level;
  return level === powers.length - 1 ? level - 1 : level + 1;
}

function trial(
  plan: Plan,
  run: Run,
  id: number,
  { power_W, wind_mps }: { readonly power_W: number; readonly wind_mps: number },
): ShownTrial {
  const known = (value: number) => ({ value, standardUncertainty: KNOWN_TO * value, degreesOfFreedom: 20 });
  const start_s = 90 * id;
  return {
    id,
    recordingId: 1,
    revision: 1,
    state: 'final',
    recorded: true,
    start_s,
    end_s: start_s + 10,
    declared_s: start_s + 2,
    sampleCount: 500,
    rotorStill: false,
    basis: 'settled',
    factors: factorsOf(plan, run),
    runId: run.id,
    voltage_V: null,
    current_A: null,
    power_W: known(power_W),
    windSpeed_mps: known(wind_mps),
    rotorSpeed_radps: null,
    ripple: null,
    speed: null,
    powerCoefficient: null,
    origin: 'board',
    simulated: false,
    struck: false,
    strikeReason: null,
    note: null,
    correction: null,
  };
}
