/** The newest voltages as they were read, for what no mean of them holds any more. */
import { rippleIn, type Ripple } from './ripple.ts';

/** A quarter of a minute at 1000 a second; of what goes on for longer the end is taken. */
const CAPACITY = 16_384;

/** A ring: the oldest is written over. */
export interface Voltages {
  readonly times_s: Float64Array;
  readonly values_V: Float64Array;
  count: number;
}

export function createVoltages(): Voltages {
  return { times_s: new Float64Array(CAPACITY), values_V: new Float64Array(CAPACITY), count: 0 };
}

/** @param voltage_V null: missing, which leaves a gap */
export function keepVoltage(
  voltages: Voltages,
  sample: { readonly time_s: number; readonly voltage_V: number | null },
): void {
  const at = voltages.count % CAPACITY;
  voltages.times_s[at] = sample.time_s;
  voltages.values_V[at] = sample.voltage_V ?? NaN;
  voltages.count += 1;
}

/** A pause as long as so many intervals is a gap; arrival by USB comes in lumps. */
const GAP_PERIODS = 3;
const GAP_S = 0.05;

/** Of the longest stretch without a gap between these times; null where it is too short. */
export function rippleBetween(
  { times_s, values_V, count }: Voltages,
  { start_s, end_s }: { readonly start_s: number; readonly end_s: number },
): Ripple | null {
  const oldest = Math.max(count - CAPACITY, 0);
  const times = new Float64Array(count - oldest);
  const values = new Float64Array(count - oldest);
  let kept = 0;
  for (let i = oldest; i < count; i++) {
    const time_s = times_s[i % CAPACITY]!;
    if (time_s < start_s || time_s > end_s) continue;
    times[kept] = time_s;
    values[kept] = values_V[i % CAPACITY]!;
    kept += 1;
  }
  const [from, to] = longestWhole(times.subarray(0, kept), values.subarray(0, kept));
  if (to - from < 2) return null;
  const sampleRate_Hz = (to - from - 1) / (times[to - 1]! - times[from]!);
  return rippleIn(values.subarray(from, to), sampleRate_Hz);
}

/** Begin and end, which is not in it. */
function longestWhole(times: Float64Array, values: Float64Array): [number, number] {
  const period_s = ((times.at(-1) ?? 0) - (times[0] ?? 0)) / Math.max(times.length - 1, 1);
  const gap_s = Math.max(GAP_PERIODS * period_s, GAP_S);
  let longest: [number, number] = [0, 0];
  let from = 0;
  for (let i = 0; i <= values.length; i++) {
    const isOver = i === values.length || Number.isNaN(values[i]);
    const isGap = !isOver && i > from && times[i]! - times[i - 1]! > gap_s;
    if (!isOver && !isGap) continue;
    if (i - from > longest[1] - longest[0]) longest = [from, i];
    from = isOver ? i + 1 : i;
  }
  return longest;
}
