/** What somebody has said of the rig beyond rotor and air: all that a prediction needs besides. */
import { z } from 'zod';
import { LoadSchema } from './load-schema.ts';
import { fieldNumber } from './rig-fields.ts';

/** Twice the segments of a large commutator. */
export const MOST_RIPPLES = 200;

/** Null: not said. */
export const SaidRigSchema = z
  .strictObject({
    blades: fieldNumber('rotor.blades').nullable(),
    chord_m: fieldNumber('rotor.chord_m').nullable(),
    /** Where the plan does not vary it. */
    angle_deg: fieldNumber('angles_deg[]').nullable(),
    /** Where no trial has read it. */
    windSpeed_mps: fieldNumber('windSpeed_mps').nullable(),
    /** Of the fan's jet; beyond it the air stands still. */
    jetRadius_m: fieldNumber('rotor.jetRadius_m').nullable(),
    emfConstant_Vsprad: fieldNumber('generator.k_Vsprad').nullable(),
    windingResistance_Ohm: fieldNumber('generator.resistance_Ohm').nullable(),
    /** That the commutator leaves in the voltage; left out by earlier versions. */
    ripplesPerTurn: z.number().int().min(1).max(MOST_RIPPLES).nullable().optional(),
    /** What just sets the shaft turning. */
    staticTorque_Nm: fieldNumber('generator.staticTorque_Nm').nullable(),
    load: LoadSchema.nullable(),
  })
  .readonly();
export type SaidRig = z.infer<typeof SaidRigSchema>;

export const NOTHING_SAID: SaidRig = {
  blades: null,
  chord_m: null,
  angle_deg: null,
  windSpeed_mps: null,
  jetRadius_m: null,
  emfConstant_Vsprad: null,
  windingResistance_Ohm: null,
  staticTorque_Nm: null,
  load: null,
};
