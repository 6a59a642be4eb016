/** The word that a channel is shown with, held against what the rig truly does. */
import { describe, expect, it } from 'vitest';
import type { ChannelMotion } from '#core/signal/plateau.ts';
import { DEMO_PARAMETERS } from '#core/virtual-rig/demo.ts';
import {
  createRig,
  nextReading,
  trueCourse,
  type RigParameters,
  type TimedEvent,
} from '#core/virtual-rig/rig.ts';
import { judgementsOf, levels, rigSamples } from './bench-rig.ts';

type Word = ChannelMotion['motion'];

/** What is said of the voltage at a moment, and by how much it truly went in the 2 s before. */
interface Said {
  readonly time_s: number;
  readonly word: Word;
  readonly change: number;
}

const FAN_S = 2;
const GUST_S = 60;
const BLADES_S = 90;
const END_S = 120;
const EVENTS: readonly TimedEvent[] = [
  { at_s: FAN_S, event: { kind: 'fan', wind_mps: 4.1 } },
  { at_s: GUST_S, event: { kind: 'fan', wind_mps: 4.5 } },
  { at_s: BLADES_S, event: { kind: 'angle', angle_deg: 30 } },
];

/** The demonstration rig; it starts with a lag of 3 s, and passes more wind on with one of 2.5 s. */
function rigOf(intensity: number): RigParameters {
  const { plant } = DEMO_PARAMETERS;
  const jet = { ...plant.jet, rotorIntensity: intensity, pointIntensity: 2 * intensity };
  return { ...DEMO_PARAMETERS, angle_deg: 20, plant: { ...plant, jet } };
}

function saidOf(intensity: number, seed: number): Said[] {
  const parameters = rigOf(intensity);
  const rig = createRig({ parameters, events: EVENTS, rate_Hz: 25, seed });
  const samples = Array.from({ length: END_S * 25 }, () => {
    return { ...nextReading(rig), rotorSpeed_radps: null };
  });
  const { step_s, voltage_V } = trueCourse(parameters, EVENTS, END_S);
  const at = (time_s: number): number => voltage_V[Math.round(time_s / step_s)]!;
  return judgementsOf(samples).flatMap(({ time_s, channels }) => {
    const voltage = channels.find(({ channel }) => channel === 'voltage_V');
    if (voltage === undefined || time_s < FAN_S + 2) return [];
    return [{ time_s, word: voltage.motion, change: at(time_s) / at(time_s - 2) - 1 }];
  });
}

const within = (said: readonly Said[], from_s: number, to_s: number): Said[] =>
  said.filter(({ time_s }) => time_s > from_s && time_s < to_s);

function shareOf(said: readonly Said[], ...words: readonly Word[]): number {
  expect(said.length).toBeGreaterThan(50);
  return said.filter(({ word }) => words.includes(word)).length / said.length;
}

/** A change of the wind or of the blades must show before it can be told. */
const SHOWS_S = 1;
const showsBy = ({ time_s }: Said): boolean =>
  [GUST_S, BLADES_S].every((at_s) => time_s < at_s || time_s > at_s + SHOWS_S);

const SEEDS = [1, 2, 3, 4];
const calm = SEEDS.flatMap((seed) => saidOf(0.01, seed));

describe('the word for a reading behind a long lag', () => {
  const moving = calm.filter((one) => Math.abs(one.change) > 0.012).filter(showsBy);

  it('is never still while the reading goes on by more than 1 % in 2 s', () => {
    expect(moving.length).toBeGreaterThan(200);
    expect(moving.filter(({ word }) => word === 'still')).toEqual([]);
  });

  it('tells which way it goes, nearly always', () => {
    const up = moving.filter(({ change }) => change > 0);
    const down = moving.filter(({ change }) => change < 0);
    expect(shareOf(up, 'rising')).toBeGreaterThan(0.8);
    expect(shareOf(up, 'falling')).toBeLessThan(0.02);
    expect(shareOf(down, 'falling')).toBeGreaterThan(0.8);
  });

  it('is still on a long quiet plateau, nearly always', () => {
    expect(shareOf(within(calm, 30, GUST_S), 'still')).toBeGreaterThan(0.95);
  });

  it('may be unsteady in strong gusts, but does not tell a way that it does not go', () => {
    const gusty = SEEDS.flatMap((seed) => saidOf(0.08, seed));
    const plateau = within(gusty, 30, GUST_S);
    expect(shareOf(plateau, 'unsteady')).toBeGreaterThan(0.5);
    expect(shareOf(plateau, 'rising', 'falling')).toBeLessThan(0.1);
  });
});

describe('the word for a reading that has only begun', () => {
  it('is not still at a rig that gusts so much that nothing would be seen', () => {
    const drive_V = levels([Infinity, 2]);
    const early = judgementsOf(rigSamples({ seconds: 2.5, lag_s: 0.5, noise: 0.03, drive_V }));
    const words = early.map(({ channels }) => channels[0]?.motion).filter((word) => word);
    expect(words.length).toBeGreaterThan(3);
    expect(words).not.toContain('still');
  });
});

describe('a swing that is seen', () => {
  it.each([3, 4.5, 6])('of %d s is neither nearly still nor a cord of joined threads', (swing_s) => {
    const spinUp = levels([5, 0], [Infinity, 2]);
    const cycle = (time_s: number) => Math.sin((2 * Math.PI * (time_s - 40)) / swing_s);
    const drive_V = (time_s: number) => spinUp(time_s) * (time_s < 40 ? 1 : 1 + 0.2 * cycle(time_s));
    const said = [1, 2, 3].flatMap((seed) =>
      judgementsOf(rigSamples({ seconds: 68, rate_Hz: 10, noise: 0.012, seed, drive_V })),
    );
    // It has filled the window that a cycle is looked for in, and is not yet said never to settle.
    const seen = said.filter(({ time_s, phase }) => time_s > 53 && phase !== 'unsettled');
    expect(seen.length).toBeGreaterThan(100);
    expect(new Set(seen.map(({ phase }) => phase))).toEqual(new Set(['moving']));
    expect(seen.flatMap(({ threads }) => threads).filter(({ joined }) => joined)).toEqual([]);
  });
});
