/** A level that was another one than the plan said: the plan, its runs and their trials follow. */
import type { Relabel } from '../command.ts';
import type { Obstacle } from '../../obstacle.ts';
import { notNow } from '../not-now.ts';
import { factorsOf, plainName, valueOf } from '../plan/factors.ts';
import { planObstacles } from '../plan/obstacles.ts';
import type { Level, Plan } from '../plan/plan.ts';
import { partsOf, runIdOf } from '../plan/run-id.ts';
import { reviseTrial, type TrialBook } from '../trial-book.ts';
import type { Trial } from '../trial.ts';
import type { Conductor } from './conductor.ts';
import { runOf, type Ledger } from './ledger.ts';

/** What stands against it; null when it can be done. */
export function relabelObstacle(
  { plan, runs }: Pick<Ledger, 'plan' | 'runs'>,
  { factor: key, from, to }: Relabel,
): Obstacle | null {
  const factor = plan?.factors.find((one) => one.key === key);
  const level = factor?.levels.find(({ label }) => label === from);
  if (plan === null || factor === undefined || level === undefined) {
    return notNow('level-unknown', from, key);
  }
  const others = factor.levels.filter((one) => one !== level);
  const isSame = (other: Level): boolean =>
    plainName(other.label) === plainName(to.label) || valueOf(other) === valueOf(to);
  // Also one that the plan no longer has may have been measured.
  const wasMeasured = runs.some(({ id }) => partsOf(id)?.setting[key] === valueOf(to));
  if (others.some(isSame) || (wasMeasured && valueOf(level) !== valueOf(to))) {
    return notNow('level-measured', to.label);
  }
  const [first] = planObstacles(withLevel(plan, key, level, to));
  return first === undefined ? null : notNow('level-unfit', to.label, first.kind, first.about);
}

/** The same the other way round, for undo. */
export function relabelBack(plan: Plan, { factor: key, from, to }: Relabel): Relabel {
  const level = plan.factors
    .find((factor) => factor.key === key)
    ?.levels.find(({ label }) => label === from);
  return { factor: key, from: to.label, to: level ?? { label: from, value: null } };
}

/** Does it, where nothing stands against it. @returns the trials that changed */
export function relabel(conductor: Conductor, book: TrialBook, wanted: Relabel): Trial[] {
  const { ledger } = conductor;
  const { factor: key, from, to } = wanted;
  const place = ledger.plan?.factors.findIndex((factor) => factor.key === key) ?? -1;
  const factor = ledger.plan?.factors[place];
  const level = factor?.levels.find(({ label }) => label === from);
  if (ledger.plan === null || factor === undefined || level === undefined) return [];
  const renamed = (id: string): string => renamedRun(id, key, level, to);
  const isNamed = place === 0 && from in ledger.predictions;
  const plan = withLevel(ledger.plan, key, level, to);
  conductor.ledger = {
    ...ledger,
    plan,
    runs: ledger.runs.map((run) => {
      const id = renamed(run.id);
      const { lastWords } = run;
      if (lastWords === undefined || id === run.id) return { ...run, id };
      return { ...run, id, lastWords: lastWords.replace(from, to.label) };
    }),
    skipped: ledger.skipped.map(renamed),
    wantedId: ledger.wantedId && renamed(ledger.wantedId),
    predictions: isNamed ? renamedVotes(ledger.predictions, from, to.label) : ledger.predictions,
  };
  conductor.runId = conductor.runId && renamed(conductor.runId);
  conductor.onRigId = conductor.onRigId && renamed(conductor.onRigId);
  conductor.askedAbout = conductor.askedAbout && renamed(conductor.askedAbout);
  const changed = book.trials.filter(({ runId }) => runId !== null && renamed(runId) !== runId);
  return changed.map(({ id, runId, factors }) => {
    const given = renamed(runId ?? '');
    const run = runOf(conductor.ledger, given);
    // What the plan has no run of any more still says what it was set to.
    const set = run === null ? { ...factors, [key]: valueOf(to) } : factorsOf(plan, run);
    return reviseTrial(book, id, { runId: given, factors: set });
  });
}

function withLevel(plan: Plan, key: string, level: Level, to: Level): Plan {
  const factors = plan.factors.map((factor) =>
    factor.key === key
      ? { ...factor, levels: factor.levels.map((one) => (one === level ? to : one)) }
      : factor,
  );
  return { ...plan, factors };
}

function renamedRun(id: string, key: string, level: Level, to: Level): string {
  const parts = partsOf(id);
  if (parts === null || parts.setting[key] !== valueOf(level)) return id;
  return runIdOf({ ...parts, setting: { ...parts.setting, [key]: valueOf(to) } });
}

function renamedVotes(
  votes: Readonly<Record<string, number>>,
  from: string,
  to: string,
): Record<string, number> {
  return Object.fromEntries(
    Object.entries(votes).map(([label, count]) => [label === from ? to : label, count]),
  );
}
