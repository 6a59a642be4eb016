/** Which part of the wind's power the rig made use of, beside the most that any rotor can take. */
import type { ComponentChildren } from 'preact';
import type { TrialCoefficient } from '#core/experiment/budget/coefficient-of-trial.ts';
import { BETZ_LIMIT } from '#core/rotor/wind/wind-power.ts';
import { shownCoefficient, type ShownScale } from '../model/coefficient.ts';
import type { PageState } from '../view/page-state.ts';
import type { WindWords } from '../words/wind-words.ts';
import { toggleDescribing } from './describing.ts';
import { RotorFields } from './rotor-fields.tsx';

interface Props {
  readonly page: PageState;
  readonly coefficient: TrialCoefficient;
  /** What else can be done, behind its own button. */
  readonly children: ComponentChildren;
}

export function Coefficient({ page, coefficient, children }: Props) {
  const words = page.words.value;
  const { describing } = page.operator;
  const { isShown } = describing;
  const { result, alarm, sentences, missing, scale } = shownCoefficient(coefficient, words);
  return (
    <>
      <div class="budget-said coefficient">
        {result !== null && <h3>{result}</h3>}
        {alarm !== null && <p class="missing">{alarm}</p>}
        {sentences.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {missing !== null && <p class="missing">{missing}</p>}
        <p class="budget-end">
          <button
            type="button"
            class="underlined"
            aria-expanded={isShown.value}
            onClick={() => toggleDescribing(describing, page.bench.experiment.value, words.number)}
          >
            {words.wind.describe}
          </button>
          {children}
        </p>
      </div>
      <div class="of-the-wind">
        {scale !== null && <Scale scale={scale} say={words.wind} />}
        {isShown.value && <RotorFields page={page} />}
      </div>
    </>
  );
}

const LONG = 1000;

/** All that the wind carries as an outline; what no rotor can take of it as the ground's tint. */
function Scale({ scale, say }: { scale: ShownScale; say: WindWords }) {
  const { value, low, high, ideal } = scale;
  return (
    <figure class="wind-scale">
      <svg viewBox={`0 0 ${LONG} 34`} preserveAspectRatio="none" aria-hidden="true">
        <rect class="never" x={LONG * BETZ_LIMIT} y="6" width={LONG * (1 - BETZ_LIMIT)} height="18" />
        <rect class="all" x="0" y="6" width={LONG} height="18" />
        <rect class="used" x="0" y="6" width={Math.max(LONG * value, 1)} height="18" />
        <path class="spread" d={`M${LONG * low} 31H${LONG * high}`} />
        {ideal !== null && <path class="ideal" d={`M${LONG * ideal} 6V24`} />}
        <path class="betz" d={`M${LONG * BETZ_LIMIT} 0V30`} />
      </svg>
      <figcaption aria-hidden="true">
        <span>{say.scale.betz(scale.betz)}</span>
        <span>{say.scale.all}</span>
      </figcaption>
    </figure>
  );
}
