/** What a person at the bench should know before setting these angles. */
import type { PredictedAngle } from './predicted-point.ts';

export function remarksOn(angles: readonly PredictedAngle[]): string[] {
  return [...angles.flatMap(remarkOn), ...jumpsBetween(angles)];
}

function remarkOn(angle: PredictedAngle): string[] {
  const { angle_deg, starts, startsShare, rotorSpeed_radps, pushed } = angle;
  if (!starts && pushed !== null) {
    return [`At ${angle_deg}° it does not start by itself; spun by hand it would keep turning.`];
  }
  if (!starts) return [`At ${angle_deg}° it does not turn.`];
  const remarks: string[] = [];
  if (pushed !== null) {
    const factor = Number((pushed.rotorSpeed_radps / rotorSpeed_radps).toPrecision(2));
    remarks.push(`At ${angle_deg}° it stays slow, with its blades stalled; spun by hand it would run ${factor} times as fast.`);
  }
  if (startsShare < 0.95) {
    remarks.push(`At ${angle_deg}° it may not start by itself: it does in ${Math.round(100 * startsShare)} of 100 draws.`);
  }
  return remarks;
}

/** Neighbours of which one is stuck at the slower of two speeds, the other runs like the faster. */
function jumpsBetween(angles: readonly PredictedAngle[]): string[] {
  const turning = angles.filter(({ starts }) => starts).sort((a, b) => a.angle_deg - b.angle_deg);
  return turning.slice(1).flatMap((upper, i) => {
    const lower = turning[i]!;
    if (!isLikeTheFasterOf(lower, upper) && !isLikeTheFasterOf(upper, lower)) return [];
    return [`Between ${lower.angle_deg}° and ${upper.angle_deg}° its speed jumps: a degree may decide.`];
  });
}

function isLikeTheFasterOf(stuck: PredictedAngle, other: PredictedAngle): boolean {
  if (stuck.pushed === null) return false;
  const slow = Math.abs(Math.log(other.rotorSpeed_radps / stuck.rotorSpeed_radps));
  const fast = Math.abs(Math.log(other.rotorSpeed_radps / stuck.pushed.rotorSpeed_radps));
  return fast < slow;
}
