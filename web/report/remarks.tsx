/** What can't be concluded, what could be better, and how nobody gets hurt. */
import type { Analysis } from '#core/experiment/analysis/analysis.ts';
import type { Improvement } from '#core/experiment/analysis/improvements.ts';
import type { BetterAbout } from '../words/report-words.ts';
import { percentText } from './numbers.ts';
import { Section } from './section.tsx';
import type { Report } from './state.ts';

interface Props {
  readonly report: Report;
  readonly analysis: Analysis;
}

export function Open({ report: { say }, analysis }: Props) {
  const { section, open } = say.value;
  return (
    <Section name={section.open}>
      <List texts={analysis.openQuestions.map((question) => open[question])} />
    </Section>
  );
}

export function Better({ report, analysis }: Props) {
  const { section, better } = report.say.value;
  const said = analysis.improvements.flatMap((one) => [
    better.said[one.kind](aboutOf(one, report)),
    ...(one.kind === 'doubts' ? doubtsSaid(report) : []),
  ]);
  return (
    <Section name={section.better}>
      <List texts={said.length === 0 ? [better.nothing] : said} />
    </Section>
  );
}

/** Each in the words of the bench page. */
function doubtsSaid({ bench, words }: Report): string[] {
  const struck = new Set(bench.trials.value.flatMap(({ id, struck }) => (struck ? [id] : [])));
  const { doubts } = bench.experiment.value;
  return doubts
    .filter(({ trialId }) => !struck.has(trialId))
    .map(({ kind, trialId, share }) => {
      return words.value.doubt[kind](trialId, percentText(share, words.value), share < 0);
    });
}

/** The numbers of a remark, as a language puts them into its sentence. */
function aboutOf(found: Improvement, { words }: Report): BetterAbout {
  const share = 'share' in found ? found.share : 0;
  const count = 'count' in found ? found.count : 'times' in found ? found.times : 0;
  return {
    percent: percentText(share, words.value, 1),
    count,
    withoutReason: 'withoutReason' in found ? found.withoutReason : 0,
    cause: 'cause' in found ? words.value.budget.cause[found.cause] : '',
    isFall: share < 0,
  };
}

export function Safety({ report: { say } }: { report: Report }) {
  const { section, safety } = say.value;
  return (
    <Section name={section.safety} class="cautions">
      <List texts={safety} />
    </Section>
  );
}

function List({ texts }: { texts: readonly string[] }) {
  return (
    <ul>
      {texts.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  );
}
