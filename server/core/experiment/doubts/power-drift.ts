/**
 * Power at the same settings that creeps: a battery that runs down, a fan that warms up. All trials
 * so far tell, about the means of their levels, over their order. It is looked at with each
 * reference run, and whenever the levels have been done equally often: then they are even in time.
 */
import { meanOf } from '../../metrology/type-a/series.ts';
import { drift } from '../../statistics/drift.ts';
import type { Doubt } from '../view.ts';
import { isAlarming, percent } from './alarm.ts';
import { byLevel, type SettingDone } from './setting.ts';

export function crept(settings: readonly SettingDone[]): Doubt[] {
  let looks = 0;
  return settings.flatMap(({ trialId, isReference }, i) => {
    const until = settings.slice(0, i + 1);
    const found = isReference || isEven(until) ? creptUntil(until) : null;
    if (found === null) return [];
    looks += 1;
    const { share, p } = found;
    if (!isAlarming(share, p, looks)) return [];
    const way = share > 0 ? 'risen' : 'fallen';
    const message = `Up to trial ${trialId}, power at the same settings has ${way} by ${percent(share)}. Has something drifted?`;
    return [{ trialId, kind: 'power-drift', message, share }];
  });
}

function isEven(settings: readonly SettingDone[]): boolean {
  const planned = settings.filter(({ isReference }) => !isReference);
  const counts = [...byLevel(planned).values()].map(({ length }) => length);
  return counts.every((count) => count > 1 && count === counts[0]);
}

/** From the first to the last, as a share; null where it can't be told yet. */
function creptUntil(settings: readonly SettingDone[]): { share: number; p: number } | null {
  const levels = byLevel(settings);
  const known = new Map(
    [...levels].map(([level, all], group) => {
      return [level, { group, mean_W: meanOf(all.map(({ power_W }) => power_W)) }];
    }),
  );
  const inOrder = settings.map(({ level, power_W }, order) => {
    const { group, mean_W } = known.get(level)!;
    return { group, order, value: power_W / mean_W };
  });
  const found = drift(inOrder);
  return found === null ? null : { share: found.slope * (settings.length - 1), p: found.p };
}
