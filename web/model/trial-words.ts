/** A trial in a list: its values beside its power, and what else is to be said of it. */
import {
  decimalAt,
  expandedUncertainty,
  firstPlace,
  NO_VALUE,
  placeOf,
  scaled,
  UNIT_SPACE,
} from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';
import { strikeReasonOf } from '#core/experiment/strike-reasons.ts';
import { markFormOf } from '../draw/trial-marks.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { TopWords } from '../words/top-words.ts';
import { unitOf, type Prefixes, type Shown } from './quantities.ts';

/** Most digits of a value whose uncertainty is not shown beside it. */
const MOST_DIGITS = 4;

export function valueText(
  trial: TrialView,
  quantity: Shown,
  prefixes: Prefixes,
  words: Catalogue,
): string {
  const measured = trial[quantity];
  if (measured === null) return NO_VALUE;
  const prefix = prefixes[quantity];
  const value = scaled(measured.value, prefix.exponent);
  const U = expandedUncertainty(measured);
  const finest = value === 0 ? -2 : firstPlace(value) - MOST_DIGITS + 1;
  const place = U === null ? finest + 1 : Math.max(placeOf(scaled(U, prefix.exponent)), finest);
  const text = words.number(decimalAt(value, place));
  return `${text}${UNIT_SPACE}${unitOf(quantity, prefix)}`;
}

function struckWords(reason: string | null, say: TopWords['list']): string {
  if (reason === null) return say.struck;
  const known = strikeReasonOf(reason);
  return say.struckFor(known === null ? reason : say.strikeReason[known]);
}

export function stateWords(trial: TrialView, say: TopWords['list']): string {
  const form = markFormOf(trial);
  const words = [
    trial.struck && struckWords(trial.strikeReason, say),
    trial.simulated && say.simulated,
    trial.origin === 'keyed' && say.keyed(trial.sampleCount),
    trial.origin === 'imported' && say.imported,
    trial.state === 'interrupted' && (form === 'cut' ? say.cutOffTooSoon : say.cutOff),
    trial.basis === 'average' && say.averaged,
    trial.basis === 'window' && say.loggedNow,
    trial.rotorStill && say.didNotTurn,
    trial.state === 'logged' && say.goesOn,
    trial.correction !== null && say.putRight,
    trial.note !== null && trial.note,
  ];
  return words.filter((word) => word !== false).join(' · ');
}
