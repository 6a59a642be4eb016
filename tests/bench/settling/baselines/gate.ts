/** What the published methods share: a gate that opens and closes plateaus on voltage alone. */
import type { Sample } from '#core/signal/sample.ts';
import type { FoundPlateau, Method } from '../method.ts';
import type { Interval } from '../recording.ts';

/** One reading in, a judgement out. hold: neither enough to open nor enough to close. */
export interface Gate {
  observe(time_s: number, voltage_V: number): 'steady' | 'moving' | 'hold';
  /** Mean voltage that the judgement is about. */
  mean_V(): number;
}

export type VoltageEstimate = Pick<
  FoundPlateau,
  'voltage_V' | 'standardUncertainty_V' | 'degreesOfFreedom'
>;

export interface GateMethod {
  readonly name: string;
  createGate(): Gate;
  /** How far before the moment of declaring the plateau is taken to have begun. */
  readonly lookBack_s: number;
  estimate(samples: readonly Sample[], interval: Interval): VoltageEstimate;
}

/** Below this, and below 2 % of the highest mean so far, the rotor is taken to stand. */
const IDLE_V = 0.005;
const IDLE_SHARE = 0.02;

export function gateMethod({ name, createGate, lookBack_s, estimate }: GateMethod): Method {
  return {
    name,
    find({ samples }) {
      const plateaus = runGate(createGate(), samples, lookBack_s).map((plateau) => ({
        ...plateau,
        closed_s: plateau.end_s,
        ...estimate(samples, plateau),
      }));
      return { plateaus, takenBack: [], hopeless_s: [] };
    },
  };
}

function runGate(
  gate: Gate,
  samples: readonly Sample[],
  lookBack_s: number,
): (Interval & { declared_s: number })[] {
  const found: (Interval & { declared_s: number })[] = [];
  let open: { start_s: number; declared_s: number } | null = null;
  let peak_V = 0;
  let closed_s = 0;
  for (const { time_s, voltage_V } of samples) {
    if (voltage_V === null) continue;
    const judgement = gate.observe(time_s, voltage_V);
    const mean_V = gate.mean_V();
    peak_V = Math.max(peak_V, mean_V);
    const idle = mean_V < Math.max(IDLE_V, IDLE_SHARE * peak_V);
    if (!open && judgement === 'steady' && !idle) {
      open = { start_s: Math.max(closed_s, time_s - lookBack_s), declared_s: time_s };
    } else if (open && (judgement === 'moving' || idle)) {
      found.push({ ...open, end_s: time_s });
      open = null;
      closed_s = time_s;
    }
  }
  const last_s = samples.at(-1)?.time_s ?? 0;
  if (open) found.push({ ...open, end_s: last_s });
  return found;
}
