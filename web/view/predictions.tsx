/** What the class expects to be best: votes for each level, in strokes as on a board. */
import { useSignal } from '@preact/signals';
import { placeAcross } from '#core/experiment/answer/seats.ts';
import { tallyPath } from '../draw/tally.ts';
import type { PageState } from './page-state.ts';

/** More are told by their number alone. */
const MOST_STROKES = 30;

/** Votes as they were given, beside the outcome; nothing when nobody has voted. */
export function Tally({ page }: { page: PageState }) {
  const { predictions } = page.bench.experiment.value;
  const given = Object.entries(predictions).filter(([, votes]) => votes > 0);
  if (given.length === 0) return null;
  return (
    <p class="tally">
      <span class="soft">{page.words.value.bench.cover.expected}</span>
      {given.map(([label, votes]) => (
        <span key={label}>
          <b>{label}</b> {votes} <Strokes count={votes} />
        </span>
      ))}
    </p>
  );
}

function Strokes({ count }: { count: number }) {
  if (count > MOST_STROKES) return null;
  const { path, width } = tallyPath(count);
  return (
    <svg class="strokes" viewBox={`0 0 ${width} 16`} width={width} height={16} aria-hidden="true">
      <path d={path} />
    </svg>
  );
}

/** The votes, typed by the mentor before the first trial. */
export function Votes({ page }: { page: PageState }) {
  const { plan, predictions } = page.bench.experiment.value;
  if (plan === null) return null;
  const levels = plan.factors[placeAcross(plan, null)]?.levels ?? [];
  return (
    <div class="votes" role="group" aria-label={page.words.value.bench.cover.expects}>
      <span class="soft">{page.words.value.bench.cover.expects}</span>
      {levels.map(({ label }) => (
        <VoteField key={label} page={page} label={label} votes={predictions[label] ?? 0} />
      ))}
    </div>
  );
}

interface VoteFieldProps {
  readonly page: PageState;
  readonly label: string;
  readonly votes: number;
}

function VoteField({ page, label, votes }: VoteFieldProps) {
  /** What is being typed; null: what the program has. */
  const typed = useSignal<string | null>(null);
  const give = (): void => {
    const count = Number(typed.value ?? votes);
    typed.value = null;
    if (!Number.isInteger(count) || count < 0 || count > 999 || count === votes) return;
    void page.operator.say({ say: 'predict', level: label, votes: count });
  };
  return (
    <label>
      {label}
      <input
        inputMode="numeric"
        maxLength={3}
        aria-label={page.words.value.bench.cover.votesFor(label)}
        value={typed.value ?? (votes === 0 ? '' : String(votes))}
        placeholder="0"
        onInput={({ currentTarget }) => (typed.value = currentTarget.value)}
        onBlur={give}
        onKeyDown={({ key }) => key === 'Enter' && give()}
      />
    </label>
  );
}
