/** Where the ± of one trial comes from: unfolds in the page, below the band. */
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { budgetAnswer } from '#core/experiment/budget/answer.ts';
import type { TrialView } from '#core/live-messages.ts';
import { shownBudget, type ShownCause } from '../model/budget.ts';
import { PutRight } from '../correct/correct-form.tsx';
import type { PageState } from '../view/page-state.ts';
import type { BudgetWords } from '../words/budget-words.ts';
import { Coefficient } from './coefficient.tsx';

export function BudgetSheet({ page }: { page: PageState }) {
  const trial = page.bench.trials.value.find(({ id }) => id === page.budgetOfId.value);
  return trial === undefined ? null : <Sheet key={trial.id} page={page} trial={trial} />;
}

function Sheet({ page, trial }: { page: PageState; trial: TrialView }) {
  const close = useRef<HTMLButtonElement>(null);
  useLayoutEffect(() => close.current?.focus(), []);
  const { instruments, rotorAndAir, airs } = page.bench.experiment.value;
  // Its check draws thousands of numbers: not at every sample that arrives.
  const answer = useMemo(
    () => budgetAnswer(trial, { instruments, rotorAndAir, airs }),
    [trial, instruments, rotorAndAir, airs],
  );
  const words = page.words.value;
  const shown = shownBudget(answer, page.prefixes.value.power_W, words);
  const say = words.budget;
  const missing = shown?.missing ?? null;
  const shut = (): void => {
    page.budgetOfId.value = null;
  };
  return (
    <section
      class="budget"
      aria-label={say.open(trial.id)}
      onKeyDown={(event) => event.key === 'Escape' && shut()}
    >
      <div class="budget-said">
        <h2>{say.trial(trial.id, shown?.result ?? '–')}</h2>
        {shown === null && <p>{say.unknown}</p>}
        {shown?.sentences.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {missing !== null && (
          <p class="missing">
            {missing} <a href="/wiring">{say.tell}</a>
          </p>
        )}
      </div>
      <div>
        {shown !== null && <CauseTable causes={shown.causes} say={say} />}
        <PutRight page={page} trial={trial} />
      </div>
      <Coefficient page={page} coefficient={answer.coefficient}>
        <button type="button" class="underlined" ref={close} onClick={shut}>
          {words.bench.close}
        </button>
      </Coefficient>
    </section>
  );
}

export function CauseTable({ causes, say }: { causes: readonly ShownCause[]; say: BudgetWords }) {
  const { heads } = say;
  return (
    <table class="budget-causes">
      <thead class="soft">
        <tr>
          <th scope="col">{heads.cause}</th>
          <th scope="col" class="wide">
            {heads.of}
          </th>
          <th scope="col" class="wide number">
            {heads.limits}
          </th>
          <th scope="col" class="number">
            {heads.adds}
          </th>
          <th scope="col" class="number">
            {heads.share}
          </th>
          <td />
          <th scope="col" class="wide">
            {heads.whose}
          </th>
        </tr>
      </thead>
      <tbody>
        {causes.map((row) => (
          <tr key={row.key}>
            <th scope="row">{row.cause}</th>
            <td class="wide">{row.of}</td>
            <td class="wide number">{row.limits}</td>
            <td class="number">{row.adds}</td>
            <td class="number">{row.percent}</td>
            <td class="bar-cell">
              <ShareBar share={row.share} isCommon={row.whose !== 'alone'} />
            </td>
            <td class="wide">{row.whose === null ? '' : say.whose[row.whose]}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const BAR = 100;

/** What stands from trial to trial is heavy; what is new in each is an outline. */
function ShareBar({ share, isCommon }: { share: number; isCommon: boolean }) {
  return (
    <svg
      class={isCommon ? 'share-bar' : 'share-bar alone'}
      viewBox={`0 0 ${BAR} 10`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <rect x="0" y="1" width={Math.max(share * BAR, 0.5)} height="8" />
    </svg>
  );
}
