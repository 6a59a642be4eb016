/** What was changed, held constant and measured with, and how it was done. */
import { rigOf } from '#core/experiment/budget/known-instruments.ts';
import { levelWords } from '#core/experiment/plan/factors.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { TrialView } from '#core/live-messages.ts';
import { markFormOf } from '../draw/trial-marks.ts';
import { Section } from './section.tsx';
import type { Report } from './state.ts';

export function SetUp({ report }: { report: Report }) {
  const { bench, say, words } = report;
  const { plan, predictions } = bench.experiment.value;
  const { setUp, section } = say.value;
  const measured = measuredWith(report);
  const expected = Object.entries(predictions).map(([label, votes]) => `${label}: ${votes}`);
  return (
    <Section name={section.setUp}>
      <dl>
        {plan?.factors.map(({ key, name, levels }) => (
          <Row key={key} name={setUp.changed}>
            {name}: {levels.map(({ label }) => label).join(', ')}
          </Row>
        ))}
        {plan !== null && (
          <Row name={setUp.constant}>
            {plan.constants.length === 0
              ? setUp.nothingConstant
              : plan.constants.map(({ name, value }) => `${name}: ${value}`).join('; ')}
          </Row>
        )}
        {measured.length > 0 && <Row name={setUp.measured}>{measured.join('; ')}</Row>}
        {expected.length > 0 && (
          <Row name={words.value.bench.cover.expected}>{expected.join(', ')}</Row>
        )}
      </dl>
    </Section>
  );
}

function Row({ name, children }: { name: string; children: preact.ComponentChildren }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  );
}

/** Each origin of trials once; of a board also how voltage and current are read. */
function measuredWith({ bench, say, words }: Report): string[] {
  const { instruments } = bench.experiment.value;
  const { origin, means } = say.value.setUp;
  const trials = bench.trials.value;
  const first = new Map(trials.map((trial) => [trial.origin, trial] as const).reverse());
  return [...first].reverse().map(([from, trial]) => {
    if (from !== 'board') return origin[from];
    const { voltage, current } = rigOf(trial, instruments).instrument;
    const { voltage_V, current_A } = words.value.quantity;
    const read = [
      `${voltage_V}: ${means[voltage?.kind ?? 'unknown']}`,
      `${current_A}: ${means[current?.kind ?? 'unknown']}`,
    ];
    return `${origin.board} (${read.join('; ')})`;
  });
}

export function Method({ report, plan }: { report: Report; plan: Plan }) {
  const { section, method } = report.say.value;
  const order = orderDone(report, plan);
  return (
    <Section name={section.method}>
      <p>{methodSaid(report, plan).join(' ')}</p>
      {order !== '' && (
        <p>
          {method.inOrder}: {order}.
        </p>
      )}
    </Section>
  );
}

function methodSaid({ bench, say, words }: Report, plan: Plan): string[] {
  const { runs } = bench.experiment.value;
  const { method } = say.value;
  const trials = bench.trials.value;
  const has = (is: (trial: TrialView) => boolean): boolean => trials.some(is);
  const count = (form: string): number => trials.filter((one) => markFormOf(one) === form).length;
  const { reference, groups } = plan;
  const done = runs.filter(({ trialIds }) => trialIds.length > 0).length;
  const said: [boolean, string][] = [
    [has(({ origin }) => origin === 'board' || origin === 'simulated'), method.settled],
    [has(({ origin }) => origin === 'keyed'), method.keyed],
    [has(({ origin }) => origin === 'imported'), method.imported],
    [true, method.rounds(plan.rounds)],
    [plan.repeats > 1, method.repeats(plan.repeats)],
    [true, plan.order === 'random' ? method.random(plan.seed) : method.listed],
    [groups.length > 1, method.groups(groups.join(', '))],
    [
      reference !== null,
      method.reference(levelWords(plan, { id: '', levels: reference?.levels ?? [] }), reference?.every ?? 0),
    ],
    [runs.length > 0, words.value.page.runsDone(done, runs.length)],
    [count('struck') > 0, method.struck(count('struck'))],
    [count('cut') > 0, method.cut(count('cut'))],
    [count('notTurning') > 0, method.still(count('notTurning'))],
  ];
  return said.flatMap(([holds, sentence]) => (holds ? [sentence] : []));
}

/** The levels in the order in which they were measured. */
function orderDone({ bench }: Report, plan: Plan): string {
  const runs = new Map(bench.experiment.value.runs.map((run) => [run.id, run]));
  const labels = bench.trials.value.flatMap(({ runId, struck }) => {
    const run = runs.get(runId ?? '');
    return run === undefined || struck ? [] : [levelWords(plan, run)];
  });
  const separator = labels.some((label) => label.includes(',')) ? '; ' : ', ';
  return labels.join(separator);
}
