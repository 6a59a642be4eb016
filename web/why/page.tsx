/** The page on why: one sentence in large type, what it rests on, and the reasons in words. */
import type { KnownWhy, Why } from '#core/experiment/why/why.ts';
import {
  assumedText,
  causeText,
  fittedText,
  tipsText,
  farSaid,
  headline,
  sentencesOf,
  type WhyWriting,
} from '../model/why-text.ts';
import { FilmEdge } from '../view/film-edge.tsx';
import { LanguageField } from '../view/language-choice.tsx';
import type { Reasons as AskedReasons } from './asking.ts';
import { ExpectedPlot } from './expected-plot.tsx';
import { flowLevel } from './flow-parts.ts';
import { PowerFlow } from './power-flow.tsx';
import { LoadPart } from './load-part.tsx';
import type { VariedLoad, WhyPageState } from './state.ts';

type FailedReasons = Extract<AskedReasons, { kind: 'failed' }>;

export function WhyPage({ page }: { page: WhyPageState }) {
  const { say, settings } = page;
  return (
    <>
      <FilmEdge page={page} />
      <nav class="tools">
        <a href="/">{say.value.toBench}</a>
        <a href="/report">{page.words.value.top.header.report}</a>
        <LanguageField settings={settings} />
      </nav>
      <main class="why-page">
        <Whole page={page} />
      </main>
    </>
  );
}

function Whole({ page }: { page: WhyPageState }) {
  const { bench, asking, say, words, load } = page;
  const reasons = asking.reasons.value;
  const status = bench.status.value;
  if (status === null) return <Plain page={page} text={say.value.waiting} />;
  if (bench.experiment.value.isCovered) {
    return <Plain page={page} text={words.value.sentence.covered} />;
  }
  if (reasons.kind === 'working') return <Plain page={page} text={say.value.working} />;
  if (reasons.kind === 'failed') return <Failed page={page} failed={reasons} />;
  return (
    <>
      {reasons.whys.map((why, place) => (
        <Reasons
          key={place}
          page={page}
          why={why}
          load={load.value?.place === place ? load.value : null}
        />
      ))}
    </>
  );
}

function Plain({ page, text }: { page: WhyPageState; text: string }) {
  return (
    <header class="head">
      <Over page={page} />
      <h1>{text}</h1>
    </header>
  );
}

/** What failed, that nothing is lost, and what can be done. */
function Failed({ page, failed }: { page: WhyPageState; failed: FailedReasons }) {
  const { failed: words } = page.say.value;
  return (
    <section role="alert" class="failed">
      <Plain page={page} text={words.what} />
      <p>{words.how[failed.how]}</p>
      {failed.detail !== '' && (
        <p class="soft" lang="en">
          {failed.detail}
        </p>
      )}
      <p>{words.kept}</p>
      <p>
        <button type="button" onClick={() => page.asking.again()}>
          {words.again}
        </button>
      </p>
    </section>
  );
}

function Over({ page: { bench, say } }: { page: WhyPageState }) {
  const { plan } = bench.experiment.value;
  return <p class="over">{plan === null ? say.value.title : `${say.value.title} · ${plan.question}`}</p>;
}

interface ReasonsProps {
  readonly page: WhyPageState;
  readonly why: Why;
  /** Where the load is the factor that they are about. */
  readonly load: VariedLoad | null;
}

function Reasons({ page, why, load }: ReasonsProps) {
  const measured = load === null ? null : <LoadPart page={page} {...load} />;
  if (why.kind === 'none') {
    return (
      <>
        <Plain page={page} text={page.say.value.none[why.why]} />
        {measured}
      </>
    );
  }
  const writing: WhyWriting = { words: page.words.value, say: page.say.value };
  const { section } = page.say.value;
  const level = flowLevel(why);
  return (
    <article>
      <header class="head">
        <Over page={page} />
        <h1>{headline(why, writing)}</h1>
      </header>
      <div class="two">
        <section>
          <h2>{section.plot}</h2>
          <ExpectedPlot page={page} why={why} />
          <Differences why={why} writing={writing} />
        </section>
        <section class="in-words">
          <h2>
            {section.words} <span class="soft">({page.say.value.model})</span>
          </h2>
          {sentencesOf(why, writing).map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </section>
      </div>
      {level !== null && (
        <section>
          <h2>{section.flow}</h2>
          <PowerFlow page={page} level={level} />
        </section>
      )}
      {measured}
      <Limits why={why} writing={writing} />
    </article>
  );
}

interface PartProps {
  readonly why: KnownWhy;
  readonly writing: WhyWriting;
}

/** As many causes as are worth a look. */
const MOST_CAUSES = 3;

function Differences({ why, writing }: PartProps) {
  const { say } = writing;
  const isFar = why.levels.some((level) => level.isFar);
  const fitted = fittedText(why.fitted, writing);
  const tips = tipsText(why, writing);
  return (
    <div class="differences">
      {farSaid(why, writing).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {isFar && why.explanations.length === 0 && <p>{say.noCause}</p>}
      {isFar && why.explanations.length > 0 && (
        <>
          <p>{say.lookFirst}</p>
          <ol>
            {why.explanations.slice(0, MOST_CAUSES).map((one) => (
              <li key={one.suspect}>{causeText(one, writing)}</li>
            ))}
          </ol>
          <p class="soft">{say.guess}</p>
        </>
      )}
      {tips !== null && <p>{tips}</p>}
      {fitted !== null && <p class="soft">{fitted}</p>}
    </div>
  );
}

function Limits({ why, writing }: PartProps) {
  const { say } = writing;
  const assumed = assumedText(why.assumed, writing);
  return (
    <section class="limits">
      <h2>{say.section.limits}</h2>
      {assumed !== null && <p>{assumed}</p>}
      {say.limits.map((limit) => (
        <p key={limit}>{limit}</p>
      ))}
    </section>
  );
}
