/** What is said of a budget whose ± is not what random draws say. */
import { describe, expect, it } from 'vitest';
import { budgetAnswer } from '#core/experiment/budget/answer.ts';
import { NO_EXPERIMENT } from '#core/experiment/view.ts';
import { prefixFor } from '#core/metrology/format.ts';
import { shownBudget } from '../../../web/model/budget.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';
import { trialOf } from './fixtures.ts';

const { en } = CATALOGUES;
const answer = budgetAnswer(trialOf(1, 150), NO_EXPERIMENT);
const budget = answer.budget!;
const u = budget.standardUncertainty_W;

function said(value_W: number): string {
  const drawn = { mean: value_W, standardUncertainty: u, low: value_W - 2.5 * u, high: value_W + 2.5 * u };
  const shown = shownBudget(
    { ...answer, budget: { ...budget, value_W }, check: { drawn, isLinear: false } },
    prefixFor(0.1),
    en,
  );
  return shown!.sentences.join(' ');
}

describe('a ± that draws don’t bear out', () => {
  it('is about right where the value is far from nothing, with the digits of the ±', () => {
    expect(said(0.15)).toMatch(/only about right: by many random draws it lies between 146\.\d.mW and 153\.\d.mW/u);
  });

  it('is lopsided near nothing', () => {
    expect(said(u)).toContain('near to nothing');
  });

  it('is as it stands where the draws agree', () => {
    const shown = shownBudget({ ...answer, check: { drawn: answer.check!.drawn, isLinear: true } }, prefixFor(0.1), en);
    expect(shown!.sentences.join(' ')).not.toContain('draws');
  });
});
