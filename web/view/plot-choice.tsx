/** Over the answer plot: what it stands by. */
import { besideNames, placeAcross, runAtWork } from '#core/experiment/answer/seats.ts';
import { dashShape } from '../draw/dash-shape.ts';
import type { AcrossBy } from '../draw/trial-marks.ts';
import type { PageState } from './page-state.ts';

/** What the answer plot is called in each of its ways. */
function namesOf({ words, bench }: PageState): Readonly<Record<AcrossBy, string>> {
  const { plan: say, bench: own, page } = words.value;
  const experiment = bench.experiment.value;
  const { plan } = experiment;
  const factor = plan?.factors[plan === null ? 0 : placeAcross(plan, runAtWork(experiment))];
  return {
    levels: say.powerAt(factor?.name ?? ''),
    number: plan === null ? page.sectionPlot : own.plot.byNumber,
    wind: own.plot.byWind,
    share: own.plot.share,
  };
}

export function PlotChoice({ page }: { page: PageState }) {
  const { plan: say } = page.words.value;
  const experiment = page.bench.experiment.value;
  const { plan } = experiment;
  const place = plan === null ? 0 : placeAcross(plan, runAtWork(experiment));
  const names = namesOf(page);
  return (
    <div class="choice" role="group" aria-label={page.words.value.page.sectionPlot}>
      {page.acrossWays.value.map((way) => (
        <button
          key={way}
          type="button"
          aria-pressed={page.acrossBy.value === way}
          onClick={() => (page.acrossChosen.value = way)}
        >
          {names[way]}
        </button>
      ))}
      {plan !== null && page.acrossBy.value === 'levels' && (
        <BesideNames names={besideNames(plan, place)} atLeast={say.atLeast} />
      )}
    </div>
  );
}

/** Which form of dash is which of the settings that stand side by side. */
function BesideNames({ names, atLeast }: { names: readonly string[]; atLeast: string }) {
  if (names.length < 2) return null;
  return (
    <p class="beside-names">
      {names.map((name, i) => (
        <span key={name}>
          <svg class="cell-mark" viewBox="0 0 34 12" aria-hidden="true">
            <path class="dash" d={dashShape(i, { left: 1, top: 1, width: 32, height: 10 })} />
          </svg>
          {name}
        </span>
      ))}
      <span>
        <svg class="least-sign mean least" viewBox="0 0 8 16" aria-hidden="true">
          <line class="interval" x1="4" x2="4" y1="0" y2="16" />
        </svg>
        {atLeast}
      </span>
    </p>
  );
}

/** What the answer plot shows as it stands, for a picture of it. */
export function plotTitle(page: PageState): string {
  const way = page.acrossBy.value;
  const name = namesOf(page)[way];
  return way === 'levels' ? name : `${page.words.value.quantity.power_W}, ${name}`;
}
