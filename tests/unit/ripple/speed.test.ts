/** The rotor's speed by ripple or generator: what is told, and what is said where nothing can be. */
import { describe, expect, it } from 'vitest';
import { speedByRipple, type RippleQuestion } from '#core/experiment/speed/ripple-speed.ts';
import { speedOfTrial } from '#core/experiment/speed/speed-of-trial.ts';
import type { Trial } from '#core/experiment/trial.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { freshHead } from '#core/recording.ts';
import { NO_FITS, type RigFits } from '#core/rotor/fitting/rig-fits.ts';
import { NOTHING_SAID } from '#core/rotor/said-rig.ts';
import type { RotorAndAir } from '#core/rotor/wind/rotor-and-air.ts';
import { DEMO_PARAMETERS } from '#core/virtual-rig/demo.ts';
import { createRig, nextReading } from '#core/virtual-rig/rig.ts';
import { speedSentences } from '../../../web/model/coefficient.ts';
import { LANGUAGES } from '../../../web/words/catalogue.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';
import { ROTOR_AND_AIR } from '../../support/budgets.ts';

const measured = (value: number, share = 0.01) => ({ value, standardUncertainty: share * value, degreesOfFreedom: 50 });
const heard = (rate_Hz: number, ...lines_Hz: number[]): RippleQuestion['ripple'] => ({
  sampleRate_Hz: rate_Hz,
  lines: lines_Hz.map((frequency_Hz) => ({ frequency_Hz, standardUncertainty_Hz: 0.2, amplitude_V: 0.01 })),
  isBelowStep: false,
});
const asked = (more: Partial<RippleQuestion>): ReturnType<typeof speedByRipple> =>
  speedByRipple({ ripple: heard(1000, 183), ripplesPerTurn: 6, expected: null, fastest_radps: null, ...more });
/** Six ripples a turn: 183 Hz are 30.5 turns a second. */
const SPEED_RADPS = (183 / 6) * 2 * Math.PI;

describe('one line of the spectrum', () => {
  it('is the speed where no rotor of this size turns so fast that it could be folded', () => {
    expect(asked({ fastest_radps: 300 })).toMatchObject({ value: expect.closeTo(SPEED_RADPS, 9) as number });
    // 817 Hz would be 856 rad/s.
    expect(asked({ fastest_radps: 900 })).toBe('folded');
    expect(asked({})).toBe('folded');
    expect(asked({ fastest_radps: 100 })).toBe('elsewhere');
  });
  it('is told from others by the generator’s constant, also where it was folded', () => {
    expect(asked({ expected: measured(190) })).toMatchObject({ value: expect.closeTo(SPEED_RADPS, 9) as number });
    expect(asked({ expected: measured(850) })).toMatchObject({ value: expect.closeTo((817 / 6) * 2 * Math.PI, 9) as number });
    expect(asked({ expected: measured(300) })).toBe('elsewhere');
    // 183 and 187 Hz both lie where 1 % has it.
    expect(asked({ ripple: heard(1000, 183, 187), expected: measured(193) })).toBe('folded');
    // Of two that are far apart, the one that fits.
    expect(asked({ ripple: heard(1000, 300, 183), expected: measured(190) })).toMatchObject({ value: expect.closeTo(SPEED_RADPS, 9) as number });
  });
  it('at the mains’ frequency is hum, folded too', () => {
    expect(asked({ ripple: heard(1000, 100.05), fastest_radps: 300 })).toBe('mains');
    expect(asked({ ripple: heard(110, 50), expected: measured(52.4) })).toBe('mains');
    expect(asked({ ripple: heard(90, 30), fastest_radps: 40 })).toBe('mains');
    expect(asked({ ripple: heard(1000, 100.05, 183), fastest_radps: 300 })).toMatchObject({ degreesOfFreedom: expect.any(Number) as number });
  });
  it('is the commutator’s where other lines are orders of the same turn', () => {
    const told = (...lines: number[]) => asked({ ripple: heard(1000, ...lines), fastest_radps: 300 });
    const speed = { value: expect.closeTo(SPEED_RADPS, 9) as number };
    // Once and four times a turn, and twice the ripple, which 1000 readings a second still show.
    expect(told(183, 30.5)).toMatchObject(speed);
    expect(told(183, 122, 366)).toMatchObject(speed);
    // A rotor out of balance ripples most once a turn; six times that is the commutator.
    expect(told(30.5, 183)).toMatchObject(speed);
    // Neither is an order of the other's turn: nothing says which is which.
    expect(told(183, 143)).toBe('several');
    expect(asked({ ripple: heard(1000, 183, 143), expected: measured(190) })).toMatchObject(speed);
  });
  it('needs the number of ripples in a turn; and where there is none, says why', () => {
    expect(asked({ ripplesPerTurn: null })).toBe('ripples not said');
    expect(asked({ ripple: null })).toBe('not heard');
    expect(asked({ ripple: heard(50) })).toBe('no line');
    expect(asked({ ripple: heard(50), expected: measured(190) })).toBe('rate too low');
    expect(asked({ ripple: heard(50, 14.3), expected: measured(190) })).toBe('rate too low');
    expect(asked({ ripple: { ...heard(1000)!, isBelowStep: true } })).toBe('below step');
  });
  it('is no better than the board’s clock', () => {
    const found = asked({ fastest_radps: 300 });
    expect(typeof found === 'string' ? 0 : found.standardUncertainty! / found.value).toBeGreaterThan(0.005 / Math.sqrt(3));
  });
});

/** The demonstration rig, read at this rate by a board with a clock of its own. */
function played(rate_Hz: number): { trial: Trial; speed_radps: number } {
  const events = [{ at_s: 1, event: { kind: 'fan', wind_mps: 4 } as const }];
  const rig = createRig({ parameters: DEMO_PARAMETERS, events, rate_Hz, seed: 3 });
  let state = begin(freshHead('board'), 1);
  const take = (text: string, at_s: number): void => void (state = step(state, { kind: 'line', at_s, text }).state);
  const link = { source: 'serial', id: 'b', name: 'B', clock: 'arrival', wholeFromStart: true } as const;
  state = step(state, { kind: 'opened', at_s: 0, link }).state;
  take('time_us,voltage_V,current_A,wind_mps', 0);
  const speeds: { time_s: number; speed: number }[] = [];
  for (let i = 0; i < 26 * rate_Hz; i++) {
    const { time_s, voltage_V, current_A, windSpeed_mps } = nextReading(rig);
    speeds.push({ time_s, speed: rig.plant.rotorSpeed_radps });
    take(`${Math.round(1e6 * time_s)},${voltage_V!.toFixed(4)},${current_A!.toFixed(5)},${windSpeed_mps!.toFixed(3)}`, time_s);
  }
  state = step(state, { kind: 'closed', at_s: 26, reason: 'ended' }).state;
  const trial = state.book.trials.at(-1)!;
  const within = speeds.filter(({ time_s }) => time_s >= trial.start_s && time_s <= trial.end_s);
  return { trial, speed_radps: within.reduce((sum, { speed }) => sum + speed, 0) / within.length };
}

const { generator, rotor } = DEMO_PARAMETERS.plant;
const SAID: RotorAndAir = {
  ...ROTOR_AND_AIR,
  radius_m: rotor.radius_m,
  rig: { ...NOTHING_SAID, ripplesPerTurn: generator.ripplesPerTurn },
};
/** Readings of that generator that wander by some millivolts. */
const FITS: RigFits = {
  lamp: null,
  generator: {
    speed: 'read',
    steps: [[40, 0.02], [60, 0.05], [80, 0.01], [50, 0], [70, 0.06]].map(([speed = 0, current_A = 0], i) => {
      const voltage_V = generator.emfConstant_Vsprad * speed - generator.resistance_Ohm * current_A;
      return { rotorSpeed_radps: speed, current_A, voltage_V: voltage_V + 0.004 * Math.sin(5 * i) };
    }),
  },
};

describe('a trial of a rig whose speed is known', () => {
  const fast = played(500);
  it('has it by the ripple, within its uncertainty, and the tip speed ratio', () => {
    const { speed, noRipple } = speedOfTrial(fast.trial, SAID, NO_FITS);
    expect([speed?.by, noRipple]).toEqual(['ripple', null]);
    const { value, standardUncertainty } = speed!.rotorSpeed_radps;
    expect(Math.abs(value - fast.speed_radps)).toBeLessThan(3 * standardUncertainty!);
    expect(standardUncertainty! / value).toBeLessThan(0.02);
    const ratio = (fast.speed_radps * rotor.radius_m) / fast.trial.windSpeed_mps!.value;
    expect(Math.abs(speed!.tipSpeedRatio!.value / ratio - 1)).toBeLessThan(0.05);
    expect(speed!.tipSpeedRatio!.standardUncertainty!).toBeGreaterThan(0.01 * ratio);
  });
  it('agrees with the generator’s volts, which tell it where the ripple can’t', () => {
    expect(speedOfTrial(fast.trial, SAID, FITS).speed?.by).toBe('ripple');
    const deaf = { ...fast.trial, ripple: null };
    const { speed, noRipple } = speedOfTrial(deaf, SAID, FITS);
    expect([speed?.by, noRipple]).toEqual(['generator', 'not heard']);
    expect(Math.abs(speed!.rotorSpeed_radps.value / fast.speed_radps - 1)).toBeLessThan(0.05);
    expect(speedOfTrial(deaf, SAID, NO_FITS).speed).toBeNull();
  });
  it('read too slowly says so, and is unfolded by the constant', () => {
    // Ten ripples a turn at some 71 rad/s: 114 Hz, above half of 140 a second, seen at 26 Hz.
    const slow = played(140);
    expect(speedOfTrial(slow.trial, SAID, NO_FITS)).toMatchObject({ speed: null, noRipple: 'folded' });
    const { speed, noRipple } = speedOfTrial(slow.trial, SAID, FITS);
    expect([speed?.by, noRipple]).toEqual(['ripple', null]);
    expect(Math.abs(speed!.rotorSpeed_radps.value - slow.speed_radps)).toBeLessThan(3 * speed!.rotorSpeed_radps.standardUncertainty!);
  });
  it('that a channel has read, or that stood still, needs no ripple', () => {
    const read = { ...fast.trial, rotorSpeed_radps: measured(-70) };
    expect(speedOfTrial(read, SAID, FITS)).toMatchObject({ speed: { by: 'channel', rotorSpeed_radps: { value: 70 } }, noRipple: null });
    expect(speedOfTrial({ ...fast.trial, rotorStill: true }, SAID, FITS).speed).toBeNull();
  });
  it.each(LANGUAGES)('is told in words, in %s', (language) => {
    const words = CATALOGUES[language];
    const said = speedSentences(speedOfTrial(fast.trial, SAID, NO_FITS), words);
    expect(said).toHaveLength(2);
    expect(said[0]).toMatch(/\d ± \d/);
    const none = speedSentences({ speed: null, noRipple: 'rate too low', sampleRate_Hz: 49.99 }, words);
    expect(none[0]).toContain('50');
  });
});
