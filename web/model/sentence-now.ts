/**
 * What pages say of the answer so far: covered, by the plan, or by trials alone. By the plan only
 * what is read off is said, the highest mean and that it may be chance: no level is called best.
 */
import type { ExperimentView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import { decimalAt, firstPlace, placeOf, scaled, UNIT_SPACE, type Prefix } from '#core/metrology/format.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { besideNames, placeAcross, runAtWork, seatedTrials, seatMeans, type SeatMean } from './level-results.ts';
import { sentenceOf, type Sentence } from './sentence.ts';
import type { Stage } from './stage.ts';

export interface Told {
  readonly experiment: ExperimentView;
  readonly trials: readonly TrialView[];
  /** Of power. */
  readonly prefix: Prefix;
  readonly words: Catalogue;
  readonly stage: Stage;
}

export function sentenceNow(told: Told): Sentence {
  const { experiment, trials, prefix, words } = told;
  const { sentence } = words;
  if (experiment.isCovered) return { said: sentence.covered, small: '' };
  // Without a board nothing becomes a trial by itself.
  if (told.stage === 'meters' && trials.length === 0) {
    return { said: sentence.nothingYet, small: words.below.meters.detail };
  }
  return sentenceByLevels(told) ?? sentenceOf(trials, prefix, words);
}

/** null where there is no plan, or none of its levels has a result. */
function sentenceByLevels({ experiment, trials, prefix, words }: Told): Sentence | null {
  const { plan } = experiment;
  if (plan === null) return null;
  const place = placeAcross(plan, runAtWork(experiment));
  const means = seatMeans(seatedTrials(experiment, trials, place));
  const [first] = [...means].sort((a, b) => b.power_W.mean - a.power_W.mean);
  if (first === undefined) return null;
  const beside = besideNames(plan, place);
  const nameOf = (mean: SeatMean): string => {
    const names = [plan.factors[place]?.levels[mean.level]?.label ?? '', beside[mean.beside] ?? ''];
    return words.list(names.filter((name) => name !== ''));
  };
  const { oneLevel, highest, sameHighest, comparisonSmall } = words.sentence;
  if (means.length === 1) return { said: oneLevel(nameOf(first)), small: words.sentence.oneSmall };
  const write = (mean: SeatMean): string => meanText(mean, prefix, words);
  const alike = means.filter((mean) => write(mean) === write(first));
  const said =
    alike.length > 1
      ? sameHighest(words.list(alike.map(nameOf)))
      : highest(nameOf(first), write(first));
  return { said, small: comparisonSmall };
}

/** To the place that its scatter supports; three digits where that is not known. */
function meanText({ power_W }: SeatMean, prefix: Prefix, words: Catalogue): string {
  const value = scaled(power_W.mean, prefix.exponent);
  const half = power_W.halfWidth === null ? 0 : scaled(power_W.halfWidth, prefix.exponent);
  const place = half > 0 ? placeOf(half) : firstPlace(value || 1) - 2;
  return `${words.number(decimalAt(value, place))}${UNIT_SPACE}${prefix.symbol}W`;
}
