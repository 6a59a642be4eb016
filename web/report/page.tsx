/** The report, top down, as a page of type; what is only for the screen stands above it. */
import type { AnalysedPart, Analysis } from '#core/experiment/analysis/analysis.ts';
import { FilmEdge } from '../view/film-edge.tsx';
import { LanguageField } from '../view/language-choice.tsx';
import { Answer, OwnAnswer } from './answer.tsx';
import { Comparison, OwnMeans } from './comparison.tsx';
import { Method, SetUp } from './set-up.tsx';
import { Plots } from './plots.tsx';
import { Better, Open, Safety } from './remarks.tsx';
import { Section } from './section.tsx';
import type { Report } from './state.ts';
import { TrialTable } from './trial-table.tsx';
import { Uncertainty } from './uncertainty.tsx';
import { WindShare } from './wind-share.tsx';

export function ReportPage({ report }: { report: Report }) {
  const { bench, say, isForStudents } = report;
  const status = bench.status.value;
  return (
    <>
      <FilmEdge page={report} />
      <Tools report={report} />
      <main class={isForStudents.value ? 'report for-students' : 'report'}>
        {status === null ? <p class="soft">{say.value.waiting}</p> : <Sheet report={report} />}
      </main>
    </>
  );
}

/** What can be done with the report; never on paper. */
function Tools({ report: { say, isForStudents, settings } }: { report: Report }) {
  const { toBench, print, version } = say.value;
  return (
    <nav class="tools">
      <a href="/">{toBench}</a>
      {([false, true] as const).map((is) => (
        <button
          key={String(is)}
          type="button"
          aria-pressed={isForStudents.value === is}
          onClick={() => (isForStudents.value = is)}
        >
          {is ? version.student : version.whole}
        </button>
      ))}
      <LanguageField settings={settings} />
      <button type="button" class="framed" onClick={() => window.print()}>
        {print}
      </button>
    </nav>
  );
}


function Sheet({ report }: { report: Report }) {
  const { bench, analysis, say, isForStudents } = report;
  const { plan, isCovered } = bench.experiment.value;
  const found = analysis.value;
  return (
    <>
      <Head report={report} question={plan?.question ?? say.value.title} />
      {plan === null && <p class="sentence">{say.value.noPlan}</p>}
      {isCovered && <p class="sentence">{report.words.value.sentence.covered}</p>}
      <SetUp report={report} />
      {plan !== null && <Method report={report} plan={plan} />}
      {!isCovered && <TrialTable report={report} />}
      {found !== null &&
        !isCovered &&
        found.parts.map((part) => (
          <Part key={part.place} report={report} analysis={found} part={part} />
        ))}
      {found !== null && !isCovered && !isForStudents.value && (
        <>
          <Open report={report} analysis={found} />
          <Better report={report} analysis={found} />
        </>
      )}
      {isForStudents.value && plan !== null && <OwnAnswer report={report} />}
      <Safety report={report} />
      <p class="made-by soft">{say.value.madeBy(bench.status.value?.version ?? '')}</p>
    </>
  );
}

function Head({ report, question }: { report: Report; question: string }) {
  const { bench, say, words, isForStudents } = report;
  const status = bench.status.value;
  const begun = status === null ? null : new Date(status.session.startedAt);
  const day = begun?.toLocaleDateString(words.value.language, { dateStyle: 'long' });
  return (
    <header class="head">
      <p class="over">
        {say.value.title} · {status?.session.name} · {day}
      </p>
      <h1>{question}</h1>
      {isForStudents.value && (
        <p class="name-line">
          <span>{say.value.name}</span>
          <span>{say.value.date}</span>
        </p>
      )}
    </header>
  );
}

interface PartProps {
  readonly report: Report;
  readonly analysis: Analysis;
  readonly part: AnalysedPart;
}

/** One factor's part: its pictures and what they say. */
function Part({ report, analysis, part }: PartProps) {
  const isForStudents = report.isForStudents.value;
  const isSeries = analysis.parts.length > 1;
  const { name } = part.answer.factor;
  return (
    <>
      {isSeries && (
        <Section name={name} class="part">
          {null}
        </Section>
      )}
      <Plots report={report} plan={analysis.plan} part={part} />
      {isForStudents ? (
        <OwnMeans report={report} part={part} />
      ) : (
        <>
          <Answer report={report} plan={analysis.plan} part={part} />
          <Comparison report={report} part={part} />
          <Uncertainty report={report} part={part} />
          <WindShare report={report} part={part} />
        </>
      )}
    </>
  );
}
