/** What boards have said of the air, for each recording; the newest word counts. */
import { z } from 'zod';
import { HeardAirSchema } from '../../rotor/wind/air.ts';
import type { RotorAndAir } from '../../rotor/wind/rotor-and-air.ts';
import type { Trial } from '../trial.ts';

export const KnownAirSchema = HeardAirSchema.extend({
  recordingId: z.number().int().positive(),
}).readonly();
export type KnownAir = z.infer<typeof KnownAirSchema>;

/** With what is heard now; the same list when that is nothing, or nothing new. */
export function withHeardAir(known: readonly KnownAir[], now: KnownAir): readonly KnownAir[] {
  const before = known.find(({ recordingId }) => recordingId === now.recordingId);
  const heard: KnownAir = {
    recordingId: now.recordingId,
    temperature_degC: now.temperature_degC ?? before?.temperature_degC ?? null,
    pressure_Pa: now.pressure_Pa ?? before?.pressure_Pa ?? null,
    relativeHumidity: now.relativeHumidity ?? before?.relativeHumidity ?? null,
  };
  const { recordingId, ...air } = heard;
  if (Object.values(air).every((value) => value === null)) return known;
  if (before !== undefined && JSON.stringify(before) === JSON.stringify(heard)) return known;
  return [...known.filter((one) => one.recordingId !== recordingId), heard];
}

/** What was said, with the board's own word on the air where it has one. */
export function saidOrHeard(
  said: RotorAndAir,
  { recordingId, basis }: Pick<Trial, 'recordingId' | 'basis'>,
  known: readonly KnownAir[],
): RotorAndAir {
  const heard = known.find((one) => one.recordingId === recordingId);
  if (heard === undefined || basis === 'keyed' || basis === 'imported') return said;
  const { air } = said;
  return {
    ...said,
    air: {
      ...air,
      temperature_degC: heard.temperature_degC ?? air.temperature_degC,
      pressure_Pa: heard.pressure_Pa ?? air.pressure_Pa,
      relativeHumidity: heard.relativeHumidity ?? air.relativeHumidity,
    },
  };
}
