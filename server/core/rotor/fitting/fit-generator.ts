/**
 * A generator's constant and winding resistance from readings at its terminals:
 *
 *     V = k ω − R I
 *
 * At one speed held, two loads or more give E = k ω and R: 2.40 V at 48 mA and 1.50 V at 120 mA are
 * 3.0 V behind 12.5 Ω. On a rotor the speed falls with the load; then the speed has to be read
 * too. Spun without a load it shows k alone.
 */
import { fitColumns, type Fitted } from './fitted.ts';

export interface LoadStep {
  readonly voltage_V: number;
  readonly current_A: number;
}

export interface SpunStep extends LoadStep {
  readonly rotorSpeed_radps: number;
}

export interface SourceFit {
  readonly emf_V: Fitted;
  readonly resistance_Ohm: Fitted;
}

export interface GeneratorFit {
  readonly emfConstant_Vsprad: Fitted;
  /** Null where no step has a current. */
  readonly resistance_Ohm: Fitted | null;
}

/** Why nothing was fitted. */
export type NoGenerator =
  /** Two different currents are the least; or, with speeds, a speed that is not 0. */
  | 'too-few'
  /** A resistance or an electromotive force that is not above 0: the speed was not held. */
  | 'speed-not-held';

/** Of steps at one and the same rotor speed. */
export function fitSource(steps: readonly LoadStep[]): SourceFit | NoGenerator {
  const columns = [steps.map(() => 1), steps.map(({ current_A }) => -current_A)];
  const { rank, fitted } = fitColumns(columns, steps.map(({ voltage_V }) => voltage_V));
  const [emf_V, resistance_Ohm] = fitted;
  if (rank < 2 || !emf_V || !resistance_Ohm) return 'too-few';
  if (!(emf_V.value > 0 && resistance_Ohm.value > 0)) return 'speed-not-held';
  return { emf_V, resistance_Ohm };
}

/** Of steps at any speeds. */
export function fitGenerator(steps: readonly SpunStep[]): GeneratorFit | NoGenerator {
  const speeds = steps.map(({ rotorSpeed_radps }) => rotorSpeed_radps);
  const voltages = steps.map(({ voltage_V }) => voltage_V);
  const isLoaded = steps.some(({ current_A }) => current_A !== 0);
  const columns = isLoaded ? [speeds, steps.map(({ current_A }) => -current_A)] : [speeds];
  const { rank, fitted } = fitColumns(columns, voltages);
  const [emfConstant_Vsprad, resistance_Ohm = null] = fitted;
  if (rank < columns.length || !emfConstant_Vsprad) return 'too-few';
  const isSound = emfConstant_Vsprad.value > 0 && (resistance_Ohm?.value ?? 1) > 0;
  return isSound ? { emfConstant_Vsprad, resistance_Ohm } : 'speed-not-held';
}
