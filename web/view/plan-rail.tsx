/** The plan as a rail: a cell a run, in rounds. It scrolls by itself, so that now is in view. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { cellAtWork, railOf, type RailCell, type RailRound } from '../model/rail.ts';
import { RunLine } from './run-line.tsx';
import type { PageState } from './page-state.ts';

export function PlanRail({ page }: { page: PageState }) {
  const scroller = useRef<HTMLDivElement>(null);
  const experiment = page.bench.experiment.value;
  const rounds = railOf(experiment);
  const chosenId = page.operator.choosing.value?.runId ?? null;
  const shownId = chosenId ?? cellAtWork(rounds)?.run.id ?? null;
  useLayoutEffect(() => {
    const cell = scroller.current?.querySelector<HTMLElement>('[data-shown]');
    if (cell) bringIntoView(scroller.current, cell);
  }, [shownId, rounds.length]);
  if (rounds.length === 0) return null;
  return (
    <section class="rail" aria-label={page.words.value.bench.plan}>
      <div class="rail-scroll" ref={scroller}>
        {rounds.map((round, i) => (
          <Round key={i} page={page} round={round} shownId={shownId} />
        ))}
      </div>
      <RunLine page={page} />
    </section>
  );
}

interface RoundParts {
  readonly page: PageState;
  readonly round: RailRound;
  readonly shownId: string | null;
}

function Round({ page, round: { round, group, cells }, shownId }: RoundParts) {
  const { plan } = page.words.value;
  const isCurrent = cells.some(({ run }) => run.id === shownId);
  return (
    <div class={isCurrent ? 'round current' : 'round'}>
      <p class="soft">
        {plan.round(round)}
        {group !== null && ` · ${group}`}
      </p>
      <ol>
        {cells.map((cell) => (
          <li key={cell.run.id}>
            <Cell page={page} cell={cell} isShown={cell.run.id === shownId} />
          </li>
        ))}
      </ol>
    </div>
  );
}

function Cell({ page, cell, isShown }: { page: PageState; cell: RailCell; isShown: boolean }) {
  const { run, label, state, isFresh } = cell;
  const { choosing } = page.operator;
  const { plan, bench } = page.words.value;
  const isAtWork = state === 'now' || state === 'next';
  const isRepeat = run.repeat > 1 && !isAtWork;
  const words = {
    done: plan.done,
    now: plan.now,
    next: plan.next,
    open: plan.toCome,
    skipped: plan.skipped,
  }[state];
  const remarks = [
    run.isReference && plan.reference,
    run.isAgain && plan.again,
    run.repeat > 1 && bench.run.repeat,
  ].filter((one) => one !== false);
  return (
    <button
      type="button"
      class={`cell ${state}${isFresh ? ' fresh' : ''}`}
      data-run={run.id}
      {...(isShown ? { 'data-shown': '' } : {})}
      {...(state === 'now' ? { 'aria-current': 'step' as const } : {})}
      aria-pressed={choosing.value?.runId === run.id}
      title={remarks.join(', ')}
      onClick={() => {
        const trialId = choosing.value?.trialId ?? null;
        const isSame = choosing.value?.runId === run.id && trialId === null;
        choosing.value = isSame ? null : { runId: run.id, trialId };
      }}
    >
      {run.isReference && (
        <svg class="reference" viewBox="0 0 12 12" aria-hidden="true">
          <circle cx="6" cy="6" r="4.5" />
        </svg>
      )}
      {run.isAgain && <span aria-hidden="true">+</span>}
      {isRepeat ? <span class="sr">{label}</span> : <CellLabel label={label} state={state} />}
      {isAtWork ? (
        <small>{words}</small>
      ) : (
        <>
          <svg class="cell-mark" viewBox="0 0 34 12" aria-hidden="true">
            {state === 'done' ? (
              <rect class="dash" x="1" y="2" width="32" height="8" />
            ) : (
              <path d={state === 'skipped' ? 'M1 6H33M10 12L24 0' : 'M1 6H33'} />
            )}
          </svg>
          <span class="sr"> {words}</span>
        </>
      )}
      {remarks.length > 0 && <span class="sr">, {remarks.join(', ')}</span>}
    </button>
  );
}

function CellLabel({ label, state }: Pick<RailCell, 'label' | 'state'>) {
  return state === 'skipped' ? <s>{label}</s> : <span class="label">{label}</span>;
}

/** Scrolls the rail alone, at once: nothing is to be watched here. */
function bringIntoView(rail: HTMLElement | null, cell: HTMLElement): void {
  if (rail === null) return;
  const [outer, inner] = [rail.getBoundingClientRect(), cell.getBoundingClientRect()];
  const fits = inner.left >= outer.left && inner.right <= outer.right - inner.width;
  if (!fits) rail.scrollLeft += inner.left - outer.left - outer.width / 3;
}
