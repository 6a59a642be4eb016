/**
 * A current and power monitor on the I²C bus: it measures the voltage across a shunt in the plus
 * wire and the voltage behind the shunt, with 12 bits and a reference of its own.
 *
 * Figures from the public data sheet of that class of parts (INA219, SBOS448, electrical
 * characteristics at 25 °C, the plainer grade; register details).
 */
import { z } from 'zod';
import type { WiredChannel } from './channel.ts';
import {
  gainUncertainty,
  ofStep,
  offsetUncertainty,
  RelativeLimitSchema,
  type GainCause,
} from './tolerance.ts';

/** One step of the register of shunt voltage, V, in every range. */
const SHUNT_REGISTER_V = 10e-6;
/** One step of the register of bus voltage, V. */
const BUS_REGISTER_V = 4e-3;
/** Into how many counts our sketch divides a step of a register (firmware/monitor-board). */
export const MONITOR_PARTS = 16;
/** What the part itself bears, V: less than the wider range of its scale. */
export const BUS_LIMIT_V = 26;

/** A range of shunt voltage. The converter has 12 bits in each, so its steps widen with it. */
export interface MonitorRange {
  readonly limit_V: number;
  readonly step_V: number;
  /** Largest offset, ±. */
  readonly offset_V: number;
}

/** By their limit in mV. Behind the divider of a wider range a step is 2, 4, 8 times as wide. */
export const MONITOR_RANGES = {
  40: { limit_V: 0.04, step_V: 10e-6, offset_V: 100e-6 },
  80: { limit_V: 0.08, step_V: 20e-6, offset_V: 125e-6 },
  160: { limit_V: 0.16, step_V: 40e-6, offset_V: 150e-6 },
  320: { limit_V: 0.32, step_V: 80e-6, offset_V: 200e-6 },
} as const satisfies Readonly<Record<number, MonitorRange>>;

export type MonitorRange_mV = keyof typeof MONITOR_RANGES;

export const MonitorSchema = z
  .strictObject({
    shunt_Ohm: z.number().positive(),
    shuntTolerance: RelativeLimitSchema,
    range_mV: z.literal([40, 80, 160, 320]),
    /** Of both its readings. */
    gainTolerance: RelativeLimitSchema,
  })
  .readonly();
export type Monitor = z.infer<typeof MonitorSchema>;

/**
 * The data sheet does not say how far its two readings are wrong by the same share. They have the
 * reference in common, so all of it is taken as shared: for power that is the worse case.
 */
function ownGain({ gainTolerance }: Monitor): GainCause {
  return { name: 'gain of the monitor', limit: gainTolerance, sensitivity: 1, shared: true };
}

export function monitorCurrentChannel(monitor: Monitor): WiredChannel {
  const { shunt_Ohm } = monitor;
  const { limit_V, step_V, offset_V } = MONITOR_RANGES[monitor.range_mV];
  const offsetCauses = [
    { name: 'zero of the monitor', limit: offset_V / shunt_Ohm, shared: false },
  ] as const;
  return {
    quantity: 'current',
    scale: SHUNT_REGISTER_V / MONITOR_PARTS / shunt_Ohm,
    range: limit_V / shunt_Ohm,
    floor: 0,
    step: step_V / shunt_Ohm,
    stepUncertainty: ofStep(step_V / shunt_Ohm),
    gain: gainUncertainty([
      ownGain(monitor),
      { name: 'shunt', limit: monitor.shuntTolerance, sensitivity: -1, shared: false },
    ]),
    offsetUncertainty: offsetUncertainty(offsetCauses),
    offsetCauses,
  };
}

/** No offset is given for the bus voltage: one step is taken for it. */
export function monitorVoltageChannel(monitor: Monitor): WiredChannel {
  const offsetCauses = [
    { name: 'zero of the monitor', limit: BUS_REGISTER_V, shared: false },
  ] as const;
  return {
    quantity: 'voltage',
    scale: BUS_REGISTER_V / MONITOR_PARTS,
    range: BUS_LIMIT_V,
    floor: 0,
    step: BUS_REGISTER_V,
    stepUncertainty: ofStep(BUS_REGISTER_V),
    gain: gainUncertainty([ownGain(monitor)]),
    offsetUncertainty: offsetUncertainty(offsetCauses),
    offsetCauses,
  };
}
