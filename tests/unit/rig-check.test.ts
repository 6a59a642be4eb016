/** What wrong wiring and a misplaced fan look like in the readings, and what sound rigs do not. */
import { describe, expect, it } from 'vitest';
import { UNHEARD, type RigHeard } from '#core/experiment/conductor/rig-heard.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { createRigWatch, watchRig } from '#core/rig-check/watch.ts';
import type { Finding } from '#core/rig-check/finding.ts';
import { shownFinding } from '../../web/model/rig-findings.ts';
import { CATALOGUES } from '../../web/words/languages.ts';

interface Stage {
  readonly length_s: number;
  /** Readings at a time since the stage began, s. */
  readonly v?: (t: number) => number;
  readonly i?: (t: number) => number;
  readonly wind?: number | null;
  readonly motion?: RigHeard['motion'];
}

const RUNNING: Stage = { length_s: 12, v: () => 2.4, i: () => 0.12, wind: 4, motion: 'running' };
const AT_REST: Stage = { length_s: 12, v: () => 0, i: () => 0, wind: 0, motion: 'standing' };

/** Kinds found at any time, and those that stand in the end. */
function watched(stages: readonly Stage[], { rate_Hz = 50, noise = 0.002, step = 0 } = {}) {
  const watch = createRigWatch();
  const random = createRandom(7);
  const ever = new Set<string>();
  let time_s = 0;
  for (const { length_s, v = () => 0, i = () => 0, wind = 0, motion = 'running' } of stages) {
    const rig = { ...UNHEARD, motion };
    for (let k = 0; k < length_s * rate_Hz; k++) {
      time_s += 1 / rate_Hz;
      const t = k / rate_Hz;
      const read = (value: number): number => {
        const noisy = value === 0 ? 0 : value * (1 + noise * normal(random));
        return step === 0 ? noisy : Math.round(noisy / step) * step;
      };
      const windSpeed_mps = wind === null ? null : wind * (1 + 0.01 * normal(random));
      const sample = { time_s, voltage_V: read(v(t)), current_A: read(i(t)), windSpeed_mps };
      watchRig(watch, { ...sample, rotorSpeed_radps: null }, rig);
      for (const { kind } of watch.findings) ever.add(kind);
    }
  }
  return { ever: [...ever], now: watch.findings as readonly Finding[] };
}

describe('a sound rig', () => {
  const rising = (level: number) => (t: number) => level * (1 - Math.exp(-t / 2));
  const falling = (level: number) => (t: number) => level * Math.exp(-t / 1.5);
  const visit: Stage[] = [
    AT_REST,
    { ...RUNNING, length_s: 15, v: rising(2.4), i: rising(0.12) },
    { ...RUNNING, length_s: 12, v: falling(2.4), i: falling(0.12), wind: 0 },
    { ...AT_REST, length_s: 25 },
    { ...RUNNING, length_s: 15, v: rising(0.6), i: rising(0.05) },
    { ...RUNNING, length_s: 12, v: falling(0.6), i: falling(0.05), wind: 0 },
    AT_REST,
  ];

  it.each([
    ['at 50 Hz', {}],
    ['at 10 Hz', { rate_Hz: 10 }],
    ['at 1 kHz', { rate_Hz: 1000 }],
    ['with a converter of 10 bits', { step: 0.005 }],
    ['almost without noise', { noise: 1e-6 }],
  ])('shows nothing %s', (_, how) => {
    expect(watched(visit, how).ever).toEqual([]);
  });

  it('shows nothing without an anemometer either', () => {
    expect(watched(visit.map((stage) => ({ ...stage, wind: null }))).ever).toEqual([]);
  });

  it('that a class stops by hand shows nothing', () => {
    expect(watched([RUNNING, { ...RUNNING, v: () => 0, i: () => 0 }]).ever).toEqual([]);
  });
});

describe('what is wrong is found, and gone when it is put right', () => {
  it.each<[string, Stage[], Partial<Finding>]>([
    ['an offset at rest', [RUNNING, { ...AT_REST, i: () => 0.004 }], { kind: 'zero-off', channel: 'current_A' }],
    [
      'an offset that looks like a rotor that never stops',
      [RUNNING, { ...AT_REST, v: () => 0.3, length_s: 30, motion: 'running' }],
      { kind: 'zero-off', channel: 'voltage_V' },
    ],
    ['swapped current leads', [{ ...RUNNING, i: () => -0.12 }], { kind: 'signs-differ', channel: 'current_A' }],
    ['swapped voltage leads', [{ ...RUNNING, v: () => -2.4 }], { kind: 'signs-differ', channel: 'voltage_V' }],
    ['a lamp that is loose', [{ ...RUNNING, i: () => 0 }], { kind: 'no-current', channel: 'current_A' }],
    ['a shorted lamp', [{ ...RUNNING, v: () => 0.001 }], { kind: 'no-voltage', channel: 'voltage_V' }],
    [
      'a converter at its end',
      [{ ...RUNNING, length_s: 20, v: (t) => Math.min(0.4 * t, 3.3), i: (t) => 0.01 + 0.02 * t }],
      { kind: 'clipped', channel: 'voltage_V' },
    ],
    [
      'a converter at its end that is reached slowly',
      [{ ...RUNNING, length_s: 40, v: (t) => Math.min(2.6 * (1 - Math.exp(-t / 6)), 2.048), i: (t) => 0.13 * (1 - Math.exp(-t / 6)) }],
      { kind: 'clipped', channel: 'voltage_V', value: 2.048 },
    ],
    ['an anemometer that hangs for long: no offset of 2.4 V', [AT_REST, { ...RUNNING, length_s: 40, wind: 0 }], { kind: 'wind-unread' }],
    [
      'a channel that hangs',
      [RUNNING, { ...RUNNING, length_s: 20, v: () => 1.1, i: (t) => 0.02 + 0.012 * t }],
      { kind: 'stuck', channel: 'voltage_V', value: 1.1 },
    ],
    ['an anemometer that hangs', [{ ...RUNNING, length_s: 14, wind: 0 }], { kind: 'wind-unread' }],
    [
      'a rotor that was flicked',
      [{ ...RUNNING, v: () => 0, i: () => 0 }, { ...RUNNING, length_s: 2 }],
      { kind: 'needs-flick', channel: null },
    ],
    ['milliamperes read as amperes', [{ ...RUNNING, i: () => 120 }], { kind: 'too-much', channel: 'current_A' }],
  ])('%s', (_, stages, finding) => {
    const exactly = stages.some(({ v = () => 0 }) => v(19) === 3.3 || v(39) === 2.048 || v(0) === 1.1) ? { noise: 0 } : {};
    expect(watched(stages, exactly).now).toMatchObject([finding]);
    if (finding.kind === 'needs-flick' || finding.kind === 'zero-off') return;
    const moving: Stage = { ...RUNNING, length_s: 15, v: (t) => 1 + t / 9, i: (t) => 0.05 + t / 180 };
    const later = watched([...stages, AT_REST, moving, RUNNING], exactly).now;
    expect(later).toEqual([]);
  });

  it.each([50, 60])('%d Hz in the voltage, where the rate lets it be seen', (frequency) => {
    const hum = { ...RUNNING, v: (t: number) => 2.4 + 0.06 * Math.sin(2 * Math.PI * frequency * t) };
    expect(watched([hum], { rate_Hz: 1000 }).now).toMatchObject([{ kind: 'mains-hum', value: frequency }]);
    expect(watched([hum], { rate_Hz: 100 }).ever).toEqual([]);
  });
});

describe('a number that no such quantity has', () => {
  /** 12 s of lines of a board that names its columns wrongly. */
  function found(columns: string, line: string): readonly Finding[] {
    let state = begin(freshHead('board'), 1);
    const link = { source: 'serial', id: 'b', name: 'B', clock: 'arrival', wholeFromStart: true } as const;
    state = step(state, { kind: 'opened', at_s: 0, link }).state;
    const lines = [columns, ...Array.from({ length: 240 }, () => line)];
    lines.forEach((text, i) => (state = step(state, { kind: 'line', at_s: i / 20, text }).state));
    return state.conductor.findings;
  }

  it('is left out of the samples, and told as a wrong unit all the same', () => {
    expect(found('voltage_V,current_A', '2.4,120')).toEqual([
      { kind: 'too-much', channel: 'current_A', value: 120, trialId: null },
    ]);
    expect(found('voltage_V,current_mA', '2.4,120')).toEqual([]);
  });

  it('is told of the wind with the wind’s own reason', () => {
    const [wind] = found('voltage_V,current_mA,wind_mps', '2.4,120,150');
    expect(wind).toMatchObject({ kind: 'too-much', channel: 'windSpeed_mps', value: 150 });
    expect(shownFinding(wind!, CATALOGUES.en).why).toBe('No fan blows like that: the unit is wrong, for instance km/h as m/s.');
  });
});
