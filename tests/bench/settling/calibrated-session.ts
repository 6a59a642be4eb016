/** What happens in a session of the calibrated recordings, piece by piece. */
import { between, chance, type Random } from '#core/virtual-rig/random.ts';
import type { CalibratedPiece } from './calibrated-course.ts';

/** A session as it is laid out; what lies beyond its end is left out. */
export interface CalibratedSession {
  readonly random: Random;
  readonly lag_s: number;
  readonly pieces: CalibratedPiece[];
  length_s: number;
  level: number;
}

const SESSION_S = 180;
/** So many lags after a rise from rest 2 % of it are to come; most changes are smaller. */
const SETTLING_LAGS = Math.log(50);
const STOP_SHARE = 0.06;

/** Plays one change after another until the session is full. It starts at rest. */
export function layPieces(
  random: Random,
  lag_s: number,
  play: (session: CalibratedSession) => void,
): readonly CalibratedPiece[] {
  const level = between(random, 0.45, 0.95);
  const session: CalibratedSession = { random, lag_s, pieces: [], length_s: 0, level };
  rest(session, between(random, 1, 4));
  while (session.length_s < SESSION_S) play(session);
  return session.pieces;
}

function add(session: CalibratedSession, piece: CalibratedPiece): void {
  const length_s = Math.min(piece.length_s, SESSION_S - session.length_s);
  if (length_s <= 0) return;
  session.pieces.push({ ...piece, length_s });
  session.length_s += length_s;
}

function rest(session: CalibratedSession, length_s: number): void {
  add(session, { length_s, use: 'still', level: 0, endLevel: 0, swing: null });
}

/** Holds the level, with time to get there; the plateau is what is left. */
export function dwell(session: CalibratedSession): void {
  hold(session, SETTLING_LAGS * session.lag_s + plateauLength_s(session));
}

export function plateauLength_s({ random }: CalibratedSession): number {
  return between(random, 15, 32);
}

export function hold(session: CalibratedSession, length_s: number): void {
  const { level } = session;
  add(session, { length_s, use: 'level', level, endLevel: level, swing: null });
}

export function swing(session: CalibratedSession): void {
  const { random, level } = session;
  add(session, {
    length_s: between(random, 15, 30),
    use: 'never',
    level,
    endLevel: level,
    swing: {
      size: between(random, 0.04, 0.12),
      period_s: between(random, 2, 7),
      phase: between(random, 0, 2 * Math.PI),
    },
  });
}

/** Goes evenly to a level that is 10 to 40 % away. */
export function ramp(session: CalibratedSession): void {
  const { random, level } = session;
  const change = () => sign(random) * between(random, 0.1, 0.4);
  const endLevel = reachable(0.25, 1.1, () => level * (1 + change()));
  const length_s = between(random, 20, 45);
  add(session, { length_s, use: 'never', level, endLevel, swing: null });
  session.level = endLevel;
}

/** Another level, a factor of 1 + `least` to 1 + `most` away. */
export function step(session: CalibratedSession, least: number, most: number): void {
  const { random, level } = session;
  const factor = () => (1 + between(random, least, most)) ** sign(random);
  session.level = reachable(0.3, 1.05, () => level * factor());
}

/** Draws until the level is one that the rig reaches. */
function reachable(least: number, most: number, draw: () => number): number {
  for (;;) {
    const level = draw();
    if (level >= least && level <= most) return level;
  }
}

function sign(random: Random): number {
  return chance(random, 0.5) ? 1 : -1;
}

export function perhapsStop(session: CalibratedSession): void {
  const { random, lag_s } = session;
  if (chance(random, STOP_SHARE)) rest(session, between(random, 4, 9) + 2 * lag_s);
}
