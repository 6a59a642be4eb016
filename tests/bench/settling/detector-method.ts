/** Our detector, driven as live: sample by sample, fresh for each recording. */
import type { Plateau, SettlingEvent } from '#core/signal/plateau.ts';
import { createDetector, finish, observe } from '#core/signal/settling/detector.ts';
import type { Findings, FoundPlateau, Method } from './method.ts';
import type { Recording } from './recording.ts';

export const detectorMethod: Method = { name: 'Stillmark', find };

function find(recording: Recording): Findings {
  const detector = createDetector(null);
  const plateaus: FoundPlateau[] = [];
  const takenBack: FoundPlateau[] = [];
  const hopeless_s: number[] = [];
  const take = (events: readonly SettlingEvent[], now_s: number): void => {
    for (const event of events) {
      if (event.kind === 'closed') {
        (event.plateau.withdrawn ? takenBack : plateaus).push(toFound(event.plateau, now_s));
      }
      if (event.kind === 'judged' && event.verdict.standing === 'unsettled') {
        hopeless_s.push(event.verdict.time_s);
      }
    }
  };
  for (const sample of recording.samples) take(observe(detector, sample), sample.time_s);
  take(finish(detector), recording.duration_s);
  return { plateaus, takenBack, hopeless_s };
}

function toFound(plateau: Plateau, closed_s: number): FoundPlateau {
  const { start_s, end_s, declared_s } = plateau;
  const voltage = plateau.estimates.voltage_V;
  return {
    start_s,
    end_s,
    declared_s,
    closed_s,
    voltage_V: voltage?.mean ?? NaN,
    standardUncertainty_V: voltage?.standardUncertainty ?? NaN,
    degreesOfFreedom: voltage?.degreesOfFreedom ?? NaN,
  };
}
