/**
 * A setting that gave something else than the others at its level: a blade that was set wrong, or
 * slipped before anything was still.
 *
 * Its deviation from the mean of the others, with the scatter of all but itself (externally
 * studentised: R. D. Cook, S. Weisberg, Residuals and Influence in Regression, 1982; from memory).
 * Levels scatter unequally, and two or three settings don't tell how much one does, so that its
 * variance is drawn towards the common one with the weight of some degrees of freedom (G. K. Smyth,
 * Stat. Appl. Genet. Mol. Biol. 3 (2004) 3, moderated t; from memory).
 */
import { meanOf } from '../../metrology/type-a/series.ts';
import { studentTUpperTail } from '../../statistics/student-t.ts';
import type { Doubt } from '../view.ts';
import { above, isAlarming, percent } from './alarm.ts';
import { byLevel, type SettingDone } from './setting.ts';

/** A scatter known from fewer degrees of freedom tells nothing. */
const LEAST_FREEDOM = 3;
/** Of the common variance: the standard deviations of levels differ by a factor of 1.5, as a rule. */
const COMMON_FREEDOM = 4;

type Levels = ReadonlyMap<string, readonly SettingDone[]>;

export function farFromOthers(settings: readonly SettingDone[]): Doubt[] {
  const levels = byLevel(settings);
  const looks = looksAt(levels);
  return settings.flatMap((setting) => {
    const deviation = deviationOf(setting, levels);
    if (deviation === null || !isAlarming(deviation.share, deviation.p, looks)) return [];
    const { share } = deviation;
    const { trialId } = setting;
    const message = `Trial ${trialId} lies ${percent(share)} ${above(share)} the other trials at its level. Was it set right?`;
    return [{ trialId, kind: 'far-from-others', message, share }];
  });
}

/** Each new setting has all at its level looked at anew; of the first two, only the later one. */
function looksAt(levels: Levels): number {
  let looks = 0;
  for (const { length } of levels.values()) if (length > 1) looks += (length * (length + 1)) / 2 - 2;
  return looks;
}

function deviationOf(setting: SettingDone, levels: Levels): { share: number; p: number } | null {
  const others = levels.get(setting.level)?.filter((other) => other !== setting) ?? [];
  // Of only two, the later one is pointed at: which of them is wrong can't be told.
  const isEarlierOfTwo = others.length === 1 && others[0]!.trialId > setting.trialId;
  if (others.length === 0 || isEarlierOfTwo) return null;
  const [own, all] = [scatterOf([others]), scatterOf(without(setting, levels))];
  if (all.freedom < LEAST_FREEDOM) return null;
  const common = COMMON_FREEDOM * (all.squares / all.freedom);
  const variance = (common + own.squares) / (COMMON_FREEDOM + own.freedom);
  const share = setting.power_W / meanOf(others.map(({ power_W }) => power_W)) - 1;
  const t = Math.abs(share) / Math.sqrt(variance * (1 + 1 / others.length));
  const freedom = Math.min(all.freedom, COMMON_FREEDOM + own.freedom);
  return { share, p: 2 * studentTUpperTail(t, freedom) };
}

function without(setting: SettingDone, levels: Levels): SettingDone[][] {
  return [...levels.values()].map((level) => level.filter((other) => other !== setting));
}

/** Squares of relative deviations from the means of the levels. */
function scatterOf(levels: readonly (readonly SettingDone[])[]): {
  readonly squares: number;
  readonly freedom: number;
} {
  let [squares, freedom] = [0, 0];
  for (const level of levels) {
    if (level.length < 2) continue;
    const mean = meanOf(level.map(({ power_W }) => power_W));
    for (const { power_W } of level) squares += (power_W / mean - 1) ** 2;
    freedom += level.length - 1;
  }
  return { squares, freedom };
}
