/** The air in the room, as instruments or a weather service tell of it. */
import { z } from 'zod';

/** What a room on this planet can have; beyond it, a unit was mistaken. */
export const AIR_LIMITS = {
  temperature_degC: { low: -40, high: 60 },
  pressure_Pa: { low: 50_000, high: 110_000 },
  relativeHumidity: { low: 0, high: 1 },
  altitude_m: { low: -500, high: 5500 },
} as const;

const within = ({ low, high }: { readonly low: number; readonly high: number }) =>
  z.number().min(low).max(high);

export const AirSchema = z.strictObject({
  temperature_degC: within(AIR_LIMITS.temperature_degC),
  /** Where the rotor is, not reduced to sea level. */
  pressure_Pa: within(AIR_LIMITS.pressure_Pa),
  /** A fraction: 0.5 is 50 %. */
  relativeHumidity: within(AIR_LIMITS.relativeHumidity),
});
export type Air = Readonly<z.infer<typeof AirSchema>>;

/** As far as a board tells; null: it does not. */
export const HeardAirSchema = z.object({
  temperature_degC: AirSchema.shape.temperature_degC.nullable(),
  pressure_Pa: AirSchema.shape.pressure_Pa.nullable(),
  relativeHumidity: AirSchema.shape.relativeHumidity.nullable(),
});
export type HeardAir = Readonly<z.infer<typeof HeardAirSchema>>;

/** Standard uncertainties of what is said of the air, in the same units. */
export type AirUncertainty = Readonly<Record<keyof Air, number>>;
