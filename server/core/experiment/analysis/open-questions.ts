/** What can't be concluded from the trials, whatever they show. */
import type { Answer } from '../answer/answer.ts';
import type { Plan } from '../plan/plan.ts';

export const OPEN_QUESTIONS = [
  /** Every level was tried once: how much setting it anew changes is not known. */
  'once-each',
  /** Levels that can't be told apart yet are not therefore equal. */
  'not-equal',
  /** Nothing between names can be known. */
  'between-names',
  /** What lies beyond the outermost levels. */
  'beyond-levels',
  /** One factor after the other: whether one changes what the other does. */
  'interaction',
  /** More than two factors together: only their combinations are compared. */
  'many-factors',
  /** In the listed order a drift looks like an effect of the level. */
  'order',
  /** A simulated rig says nothing of a real one. */
  'simulated',
  /** All of it holds for this rig and what was held constant. */
  'this-rig',
] as const;
export type OpenQuestion = (typeof OPEN_QUESTIONS)[number];

export function openQuestions(
  plan: Plan,
  answers: readonly Answer[],
  isSimulated: boolean,
): readonly OpenQuestion[] {
  const has = (is: (answer: Answer) => boolean): boolean => answers.some(is);
  const factors = answers.map(({ factor }) => factor);
  const areNumbers = factors.some(({ levels }) => levels.some(({ value }) => value !== null));
  const areNames = factors.some(({ levels }) => levels.some(({ value }) => value === null));
  const asked: Readonly<Record<OpenQuestion, boolean>> = {
    'once-each': has(({ comparison }) => comparison.best.reason === 'tried-once'),
    'not-equal': has(({ comparison }) => comparison.best.reason === 'tied'),
    'between-names': areNames,
    'beyond-levels': areNumbers,
    interaction: plan.design === 'series' && plan.factors.length > 1,
    'many-factors': plan.design === 'factorial' && plan.factors.length > 2,
    order: plan.order === 'listed',
    simulated: isSimulated,
    'this-rig': !isSimulated,
  };
  return OPEN_QUESTIONS.filter((question) => asked[question]);
}
