/** The virtual rig's anemometer: cups or a vane that count pulses, or an analogue output. */
export type AnemometerParameters =
  | {
      readonly kind: 'pulses';
      /** Metres of wind that pass in one pulse. */
      readonly windPerPulse_m: number;
      /** The board counts pulses this long for one reading. */
      readonly gate_s: number;
      readonly lag_s: number;
    }
  | { readonly kind: 'analogue'; readonly step_mps: number; readonly lag_s: number };

export interface Anemometer {
  readonly parameters: AnemometerParameters;
  shaftWind_mps: number;
  /** Part of the next pulse already turned, and whole pulses in the open gate. */
  turned: number;
  pulses: number;
  gateAge_s: number;
  reading_mps: number;
}

export function createAnemometer(parameters: AnemometerParameters): Anemometer {
  return { parameters, shaftWind_mps: 0, turned: 0, pulses: 0, gateAge_s: 0, reading_mps: 0 };
}

/** Moves the anemometer on by one step in this wind; `reading_mps` is what the board would say. */
export function advanceAnemometer(anemometer: Anemometer, wind_mps: number, step_s: number): void {
  const { parameters } = anemometer;
  const share = Math.min(1, step_s / parameters.lag_s);
  anemometer.shaftWind_mps += (wind_mps - anemometer.shaftWind_mps) * share;
  if (parameters.kind === 'analogue') {
    const steps = Math.round(anemometer.shaftWind_mps / parameters.step_mps);
    anemometer.reading_mps = steps * parameters.step_mps;
    return;
  }
  anemometer.turned += (anemometer.shaftWind_mps * step_s) / parameters.windPerPulse_m;
  const whole = Math.floor(anemometer.turned);
  anemometer.turned -= whole;
  anemometer.pulses += whole;
  anemometer.gateAge_s += step_s;
  if (anemometer.gateAge_s < parameters.gate_s - step_s / 2) return;
  anemometer.reading_mps = (anemometer.pulses * parameters.windPerPulse_m) / anemometer.gateAge_s;
  anemometer.pulses = 0;
  anemometer.gateAge_s = 0;
}
