/** A rig for the tests, and small changes to it. */
import { DEMO_PARAMETERS } from '#core/virtual-rig/demo.ts';
import type { PlantParameters } from '#core/virtual-rig/plant.ts';
import type { Jet } from '#core/virtual-rig/jet.ts';
import type { RigParameters } from '#core/virtual-rig/rig.ts';
import type { ConverterParameters } from '#core/virtual-rig/converter.ts';

export const STILL_AIR: Partial<Jet> = {
  droop: 0,
  rotorIntensity: 0,
  pointIntensity: 0,
  wander: 0,
};

export function plantWith(
  jet: Partial<Jet>,
  change: Partial<PlantParameters> = {},
): PlantParameters {
  const { plant } = DEMO_PARAMETERS;
  return { ...plant, jet: { ...plant.jet, ...jet }, ...change };
}

export function rigWith(
  jet: Partial<Jet>,
  converter: Partial<ConverterParameters> = {},
): RigParameters {
  return {
    ...DEMO_PARAMETERS,
    angle_deg: 30,
    plant: plantWith(jet),
    converter: { ...DEMO_PARAMETERS.converter, ...converter },
  };
}
