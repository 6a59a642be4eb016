/** Where the ± of one trial comes from: unfolds in the page, below the band. */
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { budgetAnswer } from '#core/experiment/budget/answer.ts';
import type { TrialView } from '#core/live-messages.ts';
import { shownBudget } from '../model/budget.ts';
import { PutRight } from '../correct/correct-form.tsx';
import type { PageState } from '../view/page-state.ts';
import { CauseTable } from './cause-table.tsx';
import { History } from './history.tsx';
import { Coefficient } from './coefficient.tsx';

export function BudgetSheet({ page }: { page: PageState }) {
  const trial = page.bench.trials.value.find(({ id }) => id === page.budgetOfId.value);
  return trial === undefined ? null : <Sheet key={trial.id} page={page} trial={trial} />;
}

function Sheet({ page, trial }: { page: PageState; trial: TrialView }) {
  const close = useRef<HTMLButtonElement>(null);
  useLayoutEffect(() => close.current?.focus(), []);
  const { instruments, rotorAndAir, airs, fits } = page.bench.experiment.value;
  // Its check draws thousands of numbers: not at every sample that arrives.
  const answer = useMemo(
    () => budgetAnswer(trial, { instruments, rotorAndAir, airs, fits }),
    [trial, instruments, rotorAndAir, airs, fits],
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
        <History page={page} trial={trial} />
        <PutRight page={page} trial={trial} />
      </div>
      <Coefficient page={page} coefficient={answer.coefficient} speed={answer.speed}>
        <button type="button" class="underlined" ref={close} onClick={shut}>
          {words.bench.close}
        </button>
      </Coefficient>
    </section>
  );
}
