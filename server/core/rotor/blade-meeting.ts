/** How the air meets the blades at three quarters of their length, which stands for all of them. */
import { solveRing } from './annulus.ts';
import type { SetRig } from './operating-point.ts';

export interface Meeting {
  /** Between the blade's chord and the air that it meets. */
  readonly angleOfAttack_deg: number;
  /** Lift over drag. */
  readonly glide: number;
}

const PLACE = 0.75;

/** Null where the blade beats still air there. @param tipSpeedRatio from 0 on */
export function bladeMeeting({ blading }: SetRig, tipSpeedRatio: number): Meeting | null {
  const station = blading.reduce((nearest, one) => {
    return Math.abs(one.radius - PLACE) < Math.abs(nearest.radius - PLACE) ? one : nearest;
  });
  if (!station.isInJet) return null;
  const stream = { axial: 1, tangential: tipSpeedRatio * station.radius };
  const angleOfAttack_rad = solveRing(station, stream).inflow_rad - station.pitch_rad;
  const { lift, drag } = station.polar(angleOfAttack_rad);
  return { angleOfAttack_deg: (angleOfAttack_rad * 180) / Math.PI, glide: lift / drag };
}
