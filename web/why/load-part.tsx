/** Power against load as it was measured, with what the law of the source says: no model of a rotor. */
import { loadSaid, sourceSaid } from '../model/answer-said.ts';
import { sessionPrefixes, unitOf } from '../model/quantities.ts';
import { answerPlot, boxOf } from '../report/plot-parts.ts';
import { PlotPicture } from '../report/plot-picture.tsx';
import { SavePicture } from '../view/save-picture.tsx';
import { rem_px } from '../view/use-size.ts';
import type { VariedLoad, WhyPageState } from './state.ts';

export function LoadPart({ page, answer, place }: VariedLoad & { readonly page: WhyPageState }) {
  const { bench, words, say } = page;
  const { plan } = bench.experiment.value;
  if (plan === null || answer.settings.length === 0) return null;
  const source = {
    experiment: bench.experiment.value,
    plan,
    trials: bench.trials.value,
    part: { answer, place },
    noRun: words.value.bench.plot.noRun,
    notInPlan: words.value.bench.plot.notInPlan,
    others: words.value.bench.plot.others,
  };
  const rem = rem_px();
  const prefix = sessionPrefixes(bench.trials.value, bench.most.value).power_W;
  const title = words.value.plan.powerAt(answer.factor.name);
  const drawn = {
    page,
    unit: unitOf('power_W', prefix),
    exponent: prefix.exponent,
    title,
    across: answer.factor.name,
    plotted: answerPlot(source, false, rem),
    box: boxOf('answer', rem),
    hasLines: false,
  };
  const said = [...loadSaid(answer, words.value), ...sourceSaid(answer, words.value)];
  return (
    <div class="two load-part">
      <section>
        <h2>
          {title} <span class="soft">({say.value.measured})</span>
        </h2>
        <PlotPicture {...drawn} label={`${title}. ${said.join(' ')}`} />
        <SavePicture
          words={words.value}
          title={title}
          name="load"
          draw={() => <PlotPicture {...drawn} label={title} />}
        />
      </section>
      <section class="in-words">
        <h2>
          {say.value.section.words} <span class="soft">({say.value.measured})</span>
        </h2>
        {said.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </section>
    </div>
  );
}
