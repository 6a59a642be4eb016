import { describe, expect, it } from 'vitest';
import { createPulseRate, takePulseCount } from '#core/reading/pulse-rate.ts';

/** Rates read every `step_s` from a counter that shows `pulsesBy(time)` whole pulses. */
function follow(
  pulsesBy: (time_s: number) => number,
  { seconds = 10, step_s = 0.01, span = 2 ** 32 } = {},
): (number | null)[] {
  const state = createPulseRate();
  return Array.from({ length: Math.round(seconds / step_s) }, (_, i) =>
    takePulseCount(state, Math.floor(pulsesBy(i * step_s)) % span, i * step_s),
  );
}

describe('the rate of pulses', () => {
  it.each([1, 3.3, 20, 150, 4000])(
    'of %d Hz is found to within a sample period in its window',
    (rate_Hz) => {
      const rates = follow((time_s) => rate_Hz * time_s + 0.5).slice(300);
      for (const rate of rates) expect(Math.abs((rate ?? 0) / rate_Hz - 1)).toBeLessThan(0.045);
      const mean = rates.reduce<number>((sum, rate) => sum + (rate ?? 0), 0) / rates.length;
      expect(Math.abs(mean / rate_Hz - 1)).toBeLessThan(0.01);
    },
  );

  it('is unknown until two pulses half a second apart', () => {
    const rates = follow((time_s) => 10 * time_s);
    expect(rates.slice(0, 50).every((rate) => rate === null)).toBe(true);
    expect(rates[100]).toBeCloseTo(10, 6);
  });

  it('of nothing is unknown at first and zero after two seconds', () => {
    const rates = follow(() => 7);
    expect(rates[199]).toBeNull();
    expect(rates[200]).toBe(0);
  });

  it('falls as soon as pulses stay away, and is zero after two seconds', () => {
    const rates = follow((time_s) => 10 * Math.min(time_s, 5));
    expect(rates[500]).toBeCloseTo(10, 6);
    expect(rates[550]).toBeCloseTo(2, 6);
    expect(rates[600]).toBeCloseTo(1, 6);
    expect(rates[701]).toBe(0);
  });

  it('goes on across the wrap of a 16-bit counter', () => {
    const rates = follow((time_s) => 65_500 + 20 * time_s, { span: 2 ** 16 });
    for (const rate of rates.slice(100)) expect(rate).toBeCloseTo(20, 0);
  });

  it('is unknown again when the counter begins anew', () => {
    const rates = follow((time_s) => (time_s < 5 ? 1000 + 10 * time_s : 10 * (time_s - 5)));
    expect(rates[499]).toBeCloseTo(10, 6);
    expect(rates[500]).toBeNull();
    expect(rates.at(-1)).toBeCloseTo(10, 6);
  });

  it('keeps slow and fast sampling alike', () => {
    for (const step_s of [0.001, 0.2]) {
      expect(follow((time_s) => 12 * time_s, { step_s }).at(-1)).toBeCloseTo(12, 0);
    }
  });
});
