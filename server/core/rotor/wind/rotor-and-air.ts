/**
 * What somebody has said of the rotor, the air and the wind's measurement: all that a power
 * coefficient needs besides the readings, and of the rig what a prediction needs. What is not said
 * is filled in as widely as it may be.
 */
import { z } from 'zod';
import { rectangular } from '../../instrument/tolerance.ts';
import { AIR_LIMITS, AirSchema, type Air, type AirUncertainty } from './air.ts';
import { ROOM_INSTRUMENTS, WEATHER_Pa } from './air-density.ts';
import { widestChord_m } from '../rotor.ts';
import { SaidRigSchema, type SaidRig } from '../said-rig.ts';
import { AnemometerSchema } from './anemometer.ts';
import { standardPressure_Pa } from './standard-atmosphere.ts';
import { TraverseSchema } from './traverse.ts';

/** Nobody's bench has a larger one; a radius in centimetres is refused by it. */
export const MOST_RADIUS_m = 2;
const RadiusSchema = z.number().positive().max(MOST_RADIUS_m);

const { low, high } = AIR_LIMITS.altitude_m;
const AltitudeSchema = z.number().min(low).max(high);

/** Null: not said. */
export const SaidAirSchema = z
  .strictObject({
    temperature_degC: AirSchema.shape.temperature_degC.nullable(),
    pressure_Pa: AirSchema.shape.pressure_Pa.nullable(),
    /** Tells of the pressure where that is not said. */
    altitude_m: AltitudeSchema.nullable(),
    relativeHumidity: AirSchema.shape.relativeHumidity.nullable(),
  })
  .readonly();
export type SaidAir = z.infer<typeof SaidAirSchema>;

export const RotorAndAirSchema = z
  .strictObject({
    /** From the axis to the tip of a blade. Null: by the trial's blade length, or not known. */
    radius_m: RadiusSchema.nullable(),
    /** From the axis to where the blades begin. */
    hubRadius_m: z.number().min(0).max(MOST_RADIUS_m),
    air: SaidAirSchema,
    /** Null: nothing is known of it. */
    anemometer: AnemometerSchema.nullable(),
    /** Null: nobody has read the wind across the rotor. */
    traverse: TraverseSchema.nullable(),
    /** Left out by those who only ask for the wind's share, and by earlier versions. */
    rig: SaidRigSchema.optional(),
  })
  .refine(({ radius_m, hubRadius_m }) => radius_m === null || radius_m > hubRadius_m, {
    message: 'The blades reach further than the hub: their radius is from the axis to the tip.',
    path: ['radius_m'],
  })
  .refine(({ radius_m, rig }) => radius_m === null || fitOnDisc(radius_m, rig), {
    message: 'So many blades of this width would cover more than the whole disc.',
    path: ['rig', 'chord_m'],
  })
  .readonly();
export type RotorAndAir = z.infer<typeof RotorAndAirSchema>;

function fitOnDisc(radius_m: number, rig: SaidRig | undefined): boolean {
  const { blades = null, chord_m = null } = rig ?? {};
  return blades === null || chord_m === null || chord_m <= widestChord_m({ radius_m, blades });
}

/** A rotor is measured with a ruler, to ±2 mm (common practice, no source). */
export const RULER_m = rectangular(0.002);

/** A room between the sea and some 1500 m, from cool to hot (common practice, no source). */
const SOME_ROOM: Air = { temperature_degC: 21, pressure_Pa: 93_500, relativeHumidity: 0.5 };
const SOME_ROOM_UNCERTAINTY: AirUncertainty = {
  temperature_degC: rectangular(8),
  pressure_Pa: rectangular(9000),
  relativeHumidity: rectangular(0.4),
};

/** The air, and how well each of it is known. */
export function airOf(said: SaidAir): { readonly air: Air; readonly u: AirUncertainty } {
  const pressure = pressureOf(said);
  return {
    air: {
      temperature_degC: said.temperature_degC ?? SOME_ROOM.temperature_degC,
      pressure_Pa: pressure.value_Pa,
      relativeHumidity: said.relativeHumidity ?? SOME_ROOM.relativeHumidity,
    },
    u: {
      temperature_degC: known(said, 'temperature_degC'),
      pressure_Pa: pressure.u_Pa,
      relativeHumidity: known(said, 'relativeHumidity'),
    },
  };
}

function known(said: SaidAir, name: 'temperature_degC' | 'relativeHumidity'): number {
  return (said[name] === null ? SOME_ROOM_UNCERTAINTY : ROOM_INSTRUMENTS)[name];
}

function pressureOf({ pressure_Pa, altitude_m }: SaidAir): { value_Pa: number; u_Pa: number } {
  if (pressure_Pa !== null) return { value_Pa: pressure_Pa, u_Pa: ROOM_INSTRUMENTS.pressure_Pa };
  if (altitude_m !== null) return { value_Pa: standardPressure_Pa(altitude_m), u_Pa: WEATHER_Pa };
  return { value_Pa: SOME_ROOM.pressure_Pa, u_Pa: SOME_ROOM_UNCERTAINTY.pressure_Pa };
}
