/** The rig as a person writes it down: checked once here, each fault named with what is expected. */
import { z } from 'zod';
import type { BenchRig } from './bench-rig.ts';
import { USUAL_UNCERTAINTY, type RigUncertainty } from './doubt.ts';
import { LoadSchema } from './load-schema.ts';
import { expectedAt, faultsOf, missingFault } from './rig-faults.ts';
import { fieldNumber as number, MOST_LEVELS } from './rig-fields.ts';
import { widestChord_m } from './rotor.ts';
import type { Varied, Variations } from './variations.ts';
import { AirSchema, type Air } from './wind/air.ts';
import { airDensity } from './wind/air-density.ts';
import { standardPressure_Pa } from './wind/standard-atmosphere.ts';

function share(name: keyof RigUncertainty): z.ZodDefault<z.ZodNumber> {
  return number(`uncertainty.${name}`).default(USUAL_UNCERTAINTY[name]);
}

function levels(factor: Varied): z.ZodDefault<z.ZodArray<z.ZodNumber>> {
  return z.array(number(`vary.${factor}[]`)).min(1).max(MOST_LEVELS).default([]);
}

/** The pressure, or the height that tells of it. */
const RigAirSchema = z
  .strictObject({
    ...AirSchema.shape,
    pressure_Pa: number('air.pressure_Pa').optional(),
    altitude_m: number('air.altitude_m').optional(),
  })
  .refine(({ pressure_Pa, altitude_m }) => pressure_Pa === undefined || altitude_m === undefined, {
    message: 'air.altitude_m and air.pressure_Pa are both given; one follows from the other. Leave one of them out.',
    path: ['altitude_m'],
  })
  .refine(({ pressure_Pa, altitude_m }) => pressure_Pa !== undefined || altitude_m !== undefined, {
    message: `${missingFault('air.pressure_Pa')} Or air.altitude_m in its place: ${expectedAt('air.altitude_m')}.`,
    path: ['pressure_Pa'],
  });

const RigFileSchema = z.strictObject({
  air: RigAirSchema,
  windSpeed_mps: number('windSpeed_mps'),
  rotor: z.strictObject({
    radius_m: number('rotor.radius_m'),
    hubRadius_m: number('rotor.hubRadius_m'),
    chord_m: number('rotor.chord_m'),
    blades: number('rotor.blades'),
    camber: number('rotor.camber').default(0),
    /** Beyond it the air stands still. */
    jetRadius_m: number('rotor.jetRadius_m').nullable().default(null),
  }),
  angles_deg: z.array(number('angles_deg[]')).min(1).max(MOST_LEVELS),
  generator: z.strictObject({
    k_Vsprad: number('generator.k_Vsprad'),
    resistance_Ohm: number('generator.resistance_Ohm'),
    staticTorque_Nm: number('generator.staticTorque_Nm'),
    runningTorque_Nm: number('generator.runningTorque_Nm'),
  }),
  load: LoadSchema,
  vary: z
    .strictObject({
      length_m: levels('length_m'),
      blades: levels('blades'),
      loadResistance_Ohm: levels('loadResistance_Ohm'),
    })
    .prefault({}),
  uncertainty: z
    .strictObject({
      windSpeed: share('windSpeed'),
      angle_deg: share('angle_deg'),
      emfConstant: share('emfConstant'),
      windingResistance: share('windingResistance'),
      friction: share('friction'),
      load: share('load'),
      chord: share('chord'),
    })
    .prefault({}),
});
type RigFile = z.infer<typeof RigFileSchema>;

export interface ReadRig {
  readonly rig: BenchRig;
  readonly angles_deg: readonly number[];
  readonly vary: Variations;
  readonly uncertainty: RigUncertainty;
}

/** Either the rig, or what is wrong with the file: one sentence a fault, the field first. */
export type RigReading = { readonly rig: ReadRig } | { readonly faults: readonly string[] };

/** @param data as JSON.parse gives it */
export function readRig(data: unknown): RigReading {
  const { data: file, error } = RigFileSchema.safeParse(data);
  if (error) return { faults: faultsOf(error.issues, data) };
  const faults = contradictionsIn(file);
  return faults.length > 0 ? { faults } : { rig: toRig(file) };
}

function toRig(file: RigFile): ReadRig {
  const { air, windSpeed_mps, rotor, angles_deg, load, vary, uncertainty } = file;
  const { k_Vsprad, ...generator } = file.generator;
  return {
    rig: {
      airDensity_kgpm3: airDensity(airOf(air)).density_kgpm3,
      windSpeed_mps,
      rotor,
      generator: { emfConstant_Vsprad: k_Vsprad, ...generator },
      load,
    },
    angles_deg,
    vary,
    uncertainty,
  };
}

function airOf({ pressure_Pa, altitude_m, ...air }: RigFile['air']): Air {
  return { ...air, pressure_Pa: pressure_Pa ?? standardPressure_Pa(altitude_m ?? 0) };
}

/** What each number allows, but not the two together. */
function contradictionsIn({ rotor, generator, vary }: RigFile): string[] {
  const faults: string[] = [];
  const { radius_m, hubRadius_m, chord_m, jetRadius_m } = rotor;
  const blades = Math.max(rotor.blades, ...vary.blades);
  if (hubRadius_m >= 0.95 * radius_m) {
    faults.push(`rotor.hubRadius_m is ${hubRadius_m}; the hub ends where the blades begin, well inside rotor.radius_m, ${radius_m}.`);
  }
  if (jetRadius_m !== null && jetRadius_m <= hubRadius_m) {
    faults.push(`rotor.jetRadius_m is ${jetRadius_m}; a jet no wider than the hub, rotor.hubRadius_m, ${hubRadius_m}, meets no blade.`);
  }
  if (chord_m > 2 * radius_m) {
    faults.push(`rotor.chord_m is ${chord_m}; a blade's width in metres is less than the rotor's, ${2 * radius_m}.`);
  }
  if (chord_m > widestChord_m({ radius_m, blades })) {
    faults.push(`${blades === rotor.blades ? 'rotor.blades' : 'vary.blades'} is ${blades}; so many blades of ${chord_m} m would cover more than the whole disc. Expected: fewer, or a smaller rotor.chord_m.`);
  }
  if (generator.runningTorque_Nm > generator.staticTorque_Nm) {
    faults.push(`generator.runningTorque_Nm is ${generator.runningTorque_Nm}; friction while turning is at most generator.staticTorque_Nm, ${generator.staticTorque_Nm}.`);
  }
  return faults;
}
