/**
 * A series nobody here made, whose levels are known: the yearly flow of the Nile at Aswan, 1871 to
 * 1970, in 1e8 m3 (Cobb 1978, "The problem of the Nile", Biometrika 65(2) 243-251; public domain,
 * as in Debian's python3-statsmodels 0.13.5, datasets/nile). Its one change lies between 1898 and
 * 1899; the levels before and after are 1097.75 and 849.97 (from memory: the worked example of the
 * R package strucchange, Zeileis et al. 2002, J. Stat. Soft. 7(2); they follow from the data).
 */
import { describe, expect, it } from 'vitest';
import { splitOf } from '#core/signal/settling/departure.ts';
import { createDetector, finish, observe } from '#core/signal/settling/detector.ts';
import type { Plateau } from '#core/signal/plateau.ts';
import { studentTQuantile } from '#core/statistics/student-t.ts';

const FLOWS = [
  1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994,
  1020, 960, 1180, 799, 958, 1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100,
  774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969, 831, 726,
  456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845,
  744, 796, 1040, 759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676,
  649, 846, 812, 742, 801, 1040, 860, 874, 848, 890, 744, 749, 838, 1050,
  918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718,
  714, 740,
];
const FIRST_YEAR = 1871;
const BEFORE = 1097.75;
const AFTER = 849.97;

/** Years as fifths of a second, flows as voltages near 2 V that change by about 4 %. */
const YEARS_PER_S = 5;
const voltageOf = (flow: number): number => 2 * (1 + (flow - BEFORE) / 6250);
const flowOf = (voltage_V: number): number => BEFORE + (voltage_V / 2 - 1) * 6250;
const yearAt = (time_s: number): number => FIRST_YEAR + time_s * YEARS_PER_S;

function plateaus(): Plateau[] {
  const detector = createDetector(null);
  const found: Plateau[] = [];
  const take = (events: ReturnType<typeof observe>): void => {
    for (const event of events) if (event.kind === 'closed') found.push(event.plateau);
  };
  for (const [index, flow] of FLOWS.entries()) {
    take(
      observe(detector, {
        time_s: index / YEARS_PER_S,
        voltage_V: voltageOf(flow),
        current_A: voltageOf(flow) / 20,
        windSpeed_mps: null,
        rotorSpeed_radps: null,
      }),
    );
  }
  take(finish(detector));
  return found;
}

describe('the flow of the Nile', () => {
  it('changed once, after 1898', () => {
    const sums = [0];
    for (const flow of FLOWS) sums.push(sums.at(-1)! + flow);
    const { at } = splitOf(FLOWS.length, (i) => sums[i]!);
    expect(FIRST_YEAR + at).toBe(1899);
    const mean = (values: readonly number[]) =>
      values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(mean(FLOWS.slice(0, at))).toBeCloseTo(BEFORE, 2);
    expect(mean(FLOWS.slice(at))).toBeCloseTo(AFTER, 2);
  });

  it('as a reading: the the plateau after the change, its level within the interval', () => {
    const [plateau, ...more] = plateaus().filter(({ withdrawn }) => !withdrawn);
    expect(more).toEqual([]);
    expect(yearAt(plateau?.start_s ?? 0)).toBeGreaterThanOrEqual(1899);
    expect(yearAt(plateau?.end_s ?? 0)).toBeGreaterThan(1965);
    const voltage = plateau?.estimates.voltage_V;
    if (!voltage) throw new Error('no voltage');
    const half = studentTQuantile(0.975, voltage.degreesOfFreedom) * voltage.standardUncertainty;
    const halfFlow = (half / 2) * 6250;
    expect(Math.abs(flowOf(voltage.mean) - AFTER)).toBeLessThan(halfFlow);
    // Nor so wide that it would hold the level before the change.
    expect(flowOf(voltage.mean) + halfFlow).toBeLessThan(BEFORE);
  });
});
