/** The electrical side of the rig: a DC generator with permanent magnets on a lamp or resistor. */
import { rootBetween } from '../root.ts';

export interface Generator {
  /** Electromotive force per speed, which is also torque per current. */
  readonly emfConstant_Vsprad: number;
  readonly resistance_Ohm: number;
  /** Torque that must be overcome to start. */
  readonly staticTorque_Nm: number;
  /** Friction while turning. */
  readonly runningTorque_Nm: number;
}

/**
 * A lamp's filament follows I ∝ V^0.55, thus R ∝ V^0.45 (Fink and Beaty, Standard Handbook for
 * Electrical Engineers, 11th ed., p. 22-8), down to its cold resistance, about a tenth of the hot
 * one (from memory). The exponent differs from lamp to lamp: `fit-lamp.ts` finds it.
 */
export type Load =
  | { readonly kind: 'resistor'; readonly resistance_Ohm: number }
  | {
      readonly kind: 'lamp';
      readonly ratedVoltage_V: number;
      readonly ratedCurrent_A: number;
      /** Of the resistance, as a power of the voltage. */
      readonly resistanceExponent?: number | undefined;
    };

export const USUAL_RESISTANCE_EXPONENT = 0.45;
const COLD_SHARE = 0.1;

/** Resistance of the load once it has taken the temperature that this voltage gives it, Ω. */
export function loadResistance_Ohm(load: Load, voltage_V: number): number {
  if (load.kind === 'resistor') return load.resistance_Ohm;
  const exponent = load.resistanceExponent ?? USUAL_RESISTANCE_EXPONENT;
  const hot_Ohm = load.ratedVoltage_V / load.ratedCurrent_A;
  const share = (Math.max(voltage_V, 0) / load.ratedVoltage_V) ** exponent;
  return hot_Ohm * Math.max(COLD_SHARE, share);
}

/** Terminal voltage, V, and current, A, of the generator at this electromotive force. */
export function steadyCircuit(
  generator: Pick<Generator, 'resistance_Ohm'>,
  load: Load,
  emf_V: number,
): { voltage_V: number; current_A: number; resistance_Ohm: number } {
  const voltage_V = rootBetween(0, emf_V, (tried_V) => {
    const resistance_Ohm = loadResistance_Ohm(load, tried_V);
    return tried_V * (1 + generator.resistance_Ohm / resistance_Ohm) - emf_V;
  });
  const resistance_Ohm = loadResistance_Ohm(load, voltage_V);
  return { voltage_V, current_A: voltage_V / resistance_Ohm, resistance_Ohm };
}
