/** Steady while the standard deviation over a rolling window is a small share of its mean. */
import type { Sample } from '#core/signal/sample.ts';
import type { Interval } from '../recording.ts';
import type { Method } from '../method.ts';
import { gateMethod, type Gate, type VoltageEstimate } from './gate.ts';

export interface RollingDeviation {
  readonly name: string;
  readonly window_s: number;
  /** Largest standard deviation relative to the mean. */
  readonly limit: number;
}

export function rollingDeviationMethod({ name, window_s, limit }: RollingDeviation): Method {
  return gateMethod({
    name,
    lookBack_s: window_s,
    createGate: () => createRollingDeviation(window_s, limit),
    estimate: plainEstimate,
  });
}

function createRollingDeviation(window_s: number, limit: number): Gate {
  const window: { time_s: number; voltage_V: number }[] = [];
  let oldest = 0;
  let begun_s: number | null = null;
  let sum = 0;
  let squares = 0;
  const count = () => window.length - oldest;
  return {
    mean_V: () => sum / count(),
    observe(time_s, voltage_V) {
      begun_s ??= time_s;
      window.push({ time_s, voltage_V });
      sum += voltage_V;
      squares += voltage_V * voltage_V;
      for (let old = window[oldest]!; old.time_s < time_s - window_s; old = window[oldest]!) {
        sum -= old.voltage_V;
        squares -= old.voltage_V * old.voltage_V;
        oldest += 1;
      }
      if (time_s - begun_s < window_s) return 'moving';
      const mean = sum / count();
      const deviation = Math.sqrt(Math.max(0, squares / count() - mean * mean));
      return deviation < limit * Math.abs(mean) ? 'steady' : 'moving';
    },
  };
}

/** Mean and s/√n, as if the readings were independent. */
function plainEstimate(samples: readonly Sample[], { start_s, end_s }: Interval): VoltageEstimate {
  let count = 0;
  let mean = 0;
  let squares = 0;
  for (const { time_s, voltage_V } of samples) {
    if (voltage_V === null || time_s < start_s || time_s >= end_s) continue;
    count += 1;
    const before = voltage_V - mean;
    mean += before / count;
    squares += before * (voltage_V - mean);
  }
  return {
    voltage_V: mean,
    standardUncertainty_V: Math.sqrt(squares / (count - 1) / count),
    degreesOfFreedom: Math.max(1, count - 1),
  };
}
