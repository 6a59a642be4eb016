/** Sentences on measured and expected; a guess is called one. */
import type { BenchRig } from '../bench-rig.ts';
import type { ComparedLevel, Explanation } from './compared-level.ts';
import type { Suspect } from './suspects.ts';

export function overallStatement(
  levels: readonly ComparedLevel[],
  explanations: readonly Explanation[],
): string {
  const far = levels.filter(({ isFar }) => isFar);
  if (levels.length === 0) return 'Nothing has been measured yet.';
  if (far.length === 0) return 'All levels lie where the model expects them.';
  const named = far.map(({ angle_deg, measured_W, low_W }) => {
    return `${angle_deg}° gives ${measured_W < low_W ? 'less' : 'more'}`;
  });
  const guess = explanations[0];
  const off = `${named.join(', ')} than the model expects.`;
  if (!guess) return `${off} No single change of what was said of the rig explains it.`;
  return `${off} First to look at: ${guess.suspect}. ${guess.statement}`;
}

export function suspicionText(suspect: Suspect, change: number, rig: BenchRig): string {
  return `${SAID[suspect](change, rig)} would bring the model near what was measured.`;
}

const SAID: Readonly<Record<Suspect, (change: number, rig: BenchRig) => string>> = {
  friction: (factor) => `Friction ${times(factor)} what was said`,
  load: (factor) => `A load of ${times(factor)} the resistance that was said`,
  'blade angle': (offset_deg) => {
    const towards = offset_deg > 0 ? 'nearer to edge-on' : 'flatter';
    return `Blades ${digits(Math.abs(offset_deg))}° ${towards} than was said`;
  },
  'wind speed': (factor, rig) => `A wind of ${digits(factor * rig.windSpeed_mps)} m/s`,
  'generator constant': (factor) => `A generator constant of ${times(factor)} what was said`,
  'winding resistance': (factor) => `A winding resistance of ${times(factor)} what was said`,
  'jet narrower than the rotor': (share, rig) =>
    `A jet of ${digits(200 * share * rig.rotor.radius_m)} cm across, with still air around it,`,
  'wind in km/h': () => 'A wind speed that was read in km/h but put down as m/s',
  'wind in mph': () => 'A wind speed that was read in miles an hour but put down as m/s',
  'diameter for radius': () => "The rotor's diameter put down as its radius",
  'angle from the axis': () => 'Angles measured from the axis instead of the rotor plane',
  'power in mW': () => 'Power put down in mW but taken as W',
};

function times(factor: number): string {
  return `${digits(factor)} times`;
}

function digits(value: number): string {
  return String(Number(value.toPrecision(2)));
}
