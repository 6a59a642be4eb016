/** The answer so far: what is compared with what, and when it is said what to run next. */
import { describe, expect, it } from 'vitest';
import { answerOf } from '#core/experiment/answer/answer.ts';
import { PlanSchema } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { NO_EXPERIMENT, type ExperimentView, type RunView } from '#core/experiment/view.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';
import { answerSaid } from '../../../web/model/answer-said.ts';
import { trialOf } from '../web/fixtures.ts';

const PLAN = {
  question: 'Which angle gives the most?',
  factors: [
    {
      kind: 'angle',
      key: 'angle_deg',
      name: 'Blade angle',
      levels: [10, 25, 40].map((value) => ({ label: `${value}°`, value })),
    },
  ],
  design: 'single',
  rounds: 3,
  order: 'listed',
  seed: 1,
};

function viewOf(more: Record<string, unknown> = {}, status: RunView['status'] = 'done'): ExperimentView {
  const plan = PlanSchema.parse({ ...PLAN, ...more });
  const runs = runsOf(plan).map((run) => ({ ...run, status, trialIds: [] }));
  return { ...NO_EXPERIMENT, plan, runs };
}

/** A trial of each run in its order, mW. */
const trialsOf = ({ runs }: ExperimentView, powers_mW: readonly number[]) =>
  powers_mW.map((power, i) => trialOf(i + 1, power, { runId: runs[i]?.id ?? null }));

const said = (view: ExperimentView, powers_mW: readonly number[], language = 'en' as 'en' | 'de') => {
  const answer = answerOf(view, trialsOf(view, powers_mW));
  const words = CATALOGUES[language];
  return answer === null ? null : answerSaid(answer, words);
};

const CLEAR = [100, 160, 80, 102, 163, 79, 99, 158, 81];

/** The same powers for the levels in whatever order they come. */
const byLevel = ({ runs }: ExperimentView) =>
  runs.map(({ levels: [level = 0] }, i) => (CLEAR[level] ?? 0) + (i % 3));

describe('the answer', () => {
  it('is none without a plan, and says nothing without a trial', () => {
    expect(answerOf(NO_EXPERIMENT, [])).toBeNull();
    expect(said(viewOf(), [])).toBeNull();
  });

  it('names the best with its size, once levels can be told apart', () => {
    const { said: sentence, small } = said(viewOf(), CLEAR)!;
    expect(sentence).toBe('25° gives the most power: about 60 % more than 10°, the next best.');
    const random = viewOf({ order: 'random' });
    expect(said(random, byLevel(random))!.small).toContain('No more trials are needed.');
    expect(small).not.toContain('No more trials are needed.');
    expect(said(viewOf(), CLEAR, 'de')!.said).toContain('etwa 60 % mehr als 10°');
  });

  it('says that an order which was the same each round weakens it, and no longer once one was not', () => {
    const words = CATALOGUES.en.answer.sameOrder;
    expect(said(viewOf(), CLEAR)!.small).toContain(words);
    // Of one round nothing can be said, and while a random order goes on it may be chance.
    expect(said(viewOf(), CLEAR.slice(0, 3))!.small).not.toContain(words);
    expect(said(viewOf({ order: 'random' }, 'open'), CLEAR)!.small).not.toContain(words);
    expect(said(viewOf({}, 'open'), CLEAR.slice(0, 5))!.small).toContain(words);
    const view = viewOf();
    const turned = [...view.runs.slice(0, 6), ...view.runs.slice(6).reverse()];
    expect(said({ ...view, runs: turned }, CLEAR)!.small).not.toContain(words);
  });

  it('says what crept meanwhile, and that no trial was corrected for it', () => {
    const doubt = { trialId: 6, kind: 'power-drift', message: '' } as const;
    const doubts = [{ ...doubt, share: -0.07 }, { ...doubt, trialId: 9, share: -0.11 }];
    const [all, one] = [3, 1].map((rounds) => {
      const view = { ...viewOf({ rounds }), doubts };
      return said(view, CLEAR.slice(0, 3 * rounds))!.small.replaceAll('\u202f', ' ');
    });
    expect(all).toContain('Power at like settings fell by 11 %. No trial is corrected for it: levels are compared within rounds.');
    expect(one).toContain('it may pass for the level.');
    expect(said(viewOf(), CLEAR)!.small).not.toContain('corrected');
  });

  it('puts no place of the most beyond the outermost levels by rounding it', () => {
    const levels = [12, 20, 42].map((value) => ({ label: `${value}°`, value }));
    const view = viewOf({ factors: [{ ...PLAN.factors[0], levels }], order: 'random' });
    expect(said(view, byLevel(view))!.small).toContain('The most lies between 12° and 42°.');
  });

  it('names none after one trial a level, whatever the gaps', () => {
    const answer = answerOf(viewOf({ rounds: 1 }), trialsOf(viewOf({ rounds: 1 }), [10, 500, 20]))!;
    expect(answer.comparison.best.reason).toBe('tried-once');
    expect(answer.comparison.anova).toBeNull();
    expect(said(viewOf({ rounds: 1 }), [10, 500, 20])!.small).toMatch(/^Nobody can know yet/);
  });

  it('says which can’t be told apart, what to run, and how many that may take', () => {
    const close = [100, 101, 60, 103, 99, 62, 98, 103, 59];
    const { said: sentence, small } = said(viewOf(), close)!;
    expect(sentence).toMatch(/^\d+° is highest so far, but can’t be told apart from \d+° yet\.$/);
    expect(small).not.toContain('40°');
  });

  it('counts those that can’t be told apart where their names would make a long list', () => {
    const close = [100, 101, 99, 103, 99, 102, 98, 103, 100];
    const [long, short] = [', of thin plywood', ''].map((more) => {
      const levels = ['square', 'round', 'swept'].map((label) => ({ label: label + more, value: null }));
      return said(viewOf({ factors: [{ ...PLAN.factors[0], levels }] }), close)!.said;
    });
    expect(long).toMatch(/can’t be told apart from 2 others yet\.$/);
    expect(short).toMatch(/can’t be told apart from \w+ and \w+ yet\.$/);
  });

  it('leaves what to run to the plan while that still has runs', () => {
    const view = viewOf({}, 'open');
    expect(answerOf(view, trialsOf(view, CLEAR))!.advice).toBeNull();
    expect(answerOf(viewOf(), trialsOf(viewOf(), CLEAR))!.advice?.kind).toBe('settled');
  });

  it('takes rounds as blocks, so that a drift from round to round hides nothing', () => {
    const drifting = [100, 110, 95, 150, 165, 142, 200, 220, 190];
    const { comparison } = answerOf(viewOf(), trialsOf(viewOf(), drifting))!;
    expect(comparison.blocked?.p).toBeLessThan(0.01);
    expect(comparison.anova?.p).toBeGreaterThan(0.5);
  });

  it('keeps what did not turn out of the means, and says so', () => {
    const view = viewOf();
    const trials = trialsOf(view, CLEAR).map((trial, i) =>
      i % 3 === 2 ? { ...trial, rotorStill: true } : trial,
    );
    const answer = answerOf(view, trials)!;
    expect(answer.comparison.levels[2]).toMatchObject({ level: 40, count: 0, didNotTurn: 3, mean: null });
    expect(answerSaid(answer, CATALOGUES.en)!.small).toContain('At 40° the blades did not turn.');
    const [first, ...others] = trialsOf(view, CLEAR.slice(0, 3));
    const still = others.map((trial) => ({ ...trial, rotorStill: true }));
    expect(answerSaid(answerOf(view, [first!, ...still])!, CATALOGUES.en)!.said).toBe(
      'So far the blades turned only at 10°.',
    );
  });

  it('compares every combination of two factors, by their labels', () => {
    const tips = ['square', 'round'].map((label) => ({ label, value: null }));
    const tip = { kind: 'own', key: 'tip', name: 'Tip', levels: tips };
    const view = viewOf({ factors: [...PLAN.factors, tip], design: 'factorial', rounds: 2 });
    const answer = answerOf(view, trialsOf(view, view.runs.map((_, i) => 100 + 10 * (i % 6))))!;
    expect(answer.comparison.levels.map(({ level }) => level)).toHaveLength(6);
    expect(answer.labelOf(answer.comparison.levels[0]!.level)).toBe('10°, square');
  });
});
