/** Our detector, driven as live: sample by sample, fresh for each recording. */
import type { Plateau, SettlingEvent } from '#core/signal/plateau.ts';
import { createDetector, finish, observe } from '#core/signal/settling/detector.ts';
import type { FoundPlateau, Method } from './method.ts';
import type { Recording } from './recording.ts';

export const detectorMethod: Method = { name: 'Stillmark', find };

function find(recording: Recording): FoundPlateau[] {
  const detector = createDetector(null);
  const found: FoundPlateau[] = [];
  const take = (events: readonly SettlingEvent[]): void => {
    for (const event of events) if (event.kind === 'closed') found.push(toFound(event.plateau));
  };
  for (const sample of recording.samples) take(observe(detector, sample));
  take(finish(detector));
  return found;
}

function toFound(plateau: Plateau): FoundPlateau {
  const { start_s, end_s, declared_s } = plateau;
  const voltage = plateau.estimates.voltage_V;
  return {
    start_s,
    end_s,
    declared_s,
    voltage_V: voltage?.mean ?? NaN,
    standardUncertainty_V: voltage?.standardUncertainty ?? NaN,
    degreesOfFreedom: voltage?.degreesOfFreedom ?? NaN,
  };
}
