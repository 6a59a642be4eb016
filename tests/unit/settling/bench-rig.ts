/** A small rig for tests: a first-order rotor in a gusty jet, sampled evenly. */
import type { Judgement, Plateau, SettlingEvent } from '#core/signal/plateau.ts';
import type { Sample } from '#core/signal/sample.ts';
import { createDetector, finish, judgementOf, observe } from '#core/signal/settling/detector.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

export interface RigSettings {
  readonly seconds: number;
  readonly rate_Hz?: number;
  readonly seed?: number;
  readonly lag_s?: number;
  /** Square root of the wind noise's long-run variance, share of the level · √s. */
  readonly noise?: number;
  /** Voltage that the rotor is driven towards, V. */
  readonly drive_V: (time_s: number) => number;
  readonly wind_mps?: (time_s: number) => number | null;
  /** Load current per volt, A/V. */
  readonly conductance_S?: (time_s: number) => number;
  /** Converter step, V. */
  readonly step_V?: number;
}

/** Samples of such a rig. */
export function rigSamples(settings: RigSettings): Sample[] {
  const { seconds, rate_Hz = 50, seed = 1, lag_s = 1, noise = 0.008, step_V = 0 } = settings;
  const { drive_V, wind_mps = () => null, conductance_S = () => 0.02 } = settings;
  const random = createRandom(seed);
  const step_s = 1 / rate_Hz;
  let voltage = drive_V(0);
  return Array.from({ length: Math.round(seconds * rate_Hz) }, (_, i) => {
    const time_s = i * step_s;
    const gust = 1 + (noise * normal(random)) / Math.sqrt(step_s);
    voltage += (drive_V(time_s) * gust - voltage) * (1 - Math.exp(-step_s / lag_s));
    const shown = step_V > 0 ? Math.round(voltage / step_V) * step_V : voltage;
    return {
      time_s,
      voltage_V: shown,
      current_A: shown * conductance_S(time_s),
      windSpeed_mps: wind_mps(time_s),
      rotorSpeed_radps: null,
    };
  });
}

/** Everything the detector says of some samples, the stream's end included. */
export function eventsOf(samples: readonly Sample[]): SettlingEvent[] {
  const detector = createDetector(null);
  const events: SettlingEvent[] = [];
  for (const sample of samples) events.push(...observe(detector, sample));
  events.push(...finish(detector));
  return events;
}

/** All that people are shown of some samples, one look after the other. */
export function judgementsOf(samples: readonly Sample[]): Judgement[] {
  const detector = createDetector(null);
  return samples.flatMap((sample) => {
    const judged = observe(detector, sample).some(({ kind }) => kind === 'judged');
    return judged ? [judgementOf(detector)!] : [];
  });
}

/** The plateaus that stand, withdrawn ones left out. */
export function plateausOf(events: readonly SettlingEvent[]): (Plateau & { endReason: string })[] {
  return events.flatMap((event) =>
    event.kind === 'closed' && !event.plateau.withdrawn
      ? [{ ...event.plateau, endReason: event.endReason }]
      : [],
  );
}

/** One of these levels after the other, each until its time. */
export function levels(...steps: readonly (readonly [until_s: number, level: number])[]) {
  return (time_s: number): number =>
    (steps.find(([until_s]) => time_s < until_s) ?? steps.at(-1)!)[1];
}
