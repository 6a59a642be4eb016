/** Which part of the wind's power the rig made use of, beside the most that any rotor can take. */
import type { ComponentChildren } from 'preact';
import type { SpeedAnswer } from '#core/experiment/speed/speed-of-trial.ts';
import type { TrialCoefficient } from '#core/experiment/budget/coefficient-of-trial.ts';
import { shownCoefficient, speedSentences } from '../model/coefficient.ts';
import type { PageState } from '../view/page-state.ts';
import { FitSheet } from '../fitting/fit-sheet.tsx';
import { toggleFitting } from '../fitting/fitting.ts';
import { toggleDescribing } from './describing.ts';
import { RotorFields } from './rotor-fields.tsx';
import { WindScale } from './wind-scale.tsx';

interface Props {
  readonly page: PageState;
  readonly coefficient: TrialCoefficient;
  readonly speed: SpeedAnswer;
  /** What else can be done, behind its own button. */
  readonly children: ComponentChildren;
}

export function Coefficient({ page, coefficient, speed, children }: Props) {
  const words = page.words.value;
  const { describing, fitting } = page.operator;
  const { isShown } = describing;
  const { result, alarm, sentences, missing, scale } = shownCoefficient(coefficient, words);
  return (
    <>
      <div class="budget-said coefficient">
        {result !== null && <h3>{result}</h3>}
        {alarm !== null && <p class="missing">{alarm}</p>}
        {[...sentences, ...speedSentences(speed, words)].map((sentence) => (
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
          <button
            type="button"
            class="underlined"
            aria-expanded={fitting.isShown.value}
            onClick={() => toggleFitting(fitting, page.bench.experiment.value, words.number)}
          >
            {words.fit.open}
          </button>
          {children}
        </p>
      </div>
      <div class="of-the-wind">
        {scale !== null && <WindScale scale={scale} say={words.wind} />}
        {isShown.value && <RotorFields page={page} />}
        {fitting.isShown.value && <FitSheet page={page} />}
      </div>
    </>
  );
}
