/** A line of numbers that nothing names, as it came: the operator says which number is what. */
import { useState } from 'preact/hooks';
import type { BoardRequest } from '#core/live-messages.ts';
import { COLUMN_NAMES, type ColumnName } from '#core/reading/unnamed.ts';
import type { TopWords } from '../words/top-words.ts';
import type { PageState } from './page-state.ts';

export function Naming({ page }: { page: PageState }) {
  const { stage, status } = page.bench;
  const fields = stage.value === 'unmapped' ? status.value?.unnamedFields : null;
  if (!fields) return null;
  // Other fields, other choices: what was chosen for five numbers means nothing for four.
  return <NamingForm key={fields.length} page={page} fields={fields} />;
}

/** None: what was named is forgotten, and the page asks again. */
export function nameNumbers(page: PageState, names: readonly ColumnName[]): void {
  const request: BoardRequest = { want: 'columns', columns: [...names] };
  void page.wantOfBoard(request).then((refusal) => {
    if (refusal !== null) page.bench.trouble.value = refusal;
  });
}

interface NamingFormProps {
  readonly page: PageState;
  readonly fields: readonly string[];
}

function NamingForm({ page, fields }: NamingFormProps) {
  const [names, setNames] = useState<readonly ColumnName[]>(() => fields.map(() => ''));
  const say = page.words.value.top.naming;
  const submit = (event: Event): void => {
    event.preventDefault();
    nameNumbers(page, names);
  };
  return (
    <form class="naming" aria-label={say.heading} onSubmit={submit}>
      <ol>
        {fields.map((text, at) => (
          <li key={at}>
            <span class="number">{text === '' ? '–' : text}</span>
            <NameChoice
              label={say.number(at + 1)}
              say={say}
              chosen={names[at] ?? ''}
              choose={(name) => setNames(names.map((one, i) => (i === at ? name : one)))}
            />
          </li>
        ))}
      </ol>
      <p>
        <button type="submit" class="strong">
          {say.readSo}
        </button>{' '}
        <span class="soft">
          {say.hint}
        </span>
      </p>
    </form>
  );
}

interface NameChoiceProps {
  readonly label: string;
  readonly say: TopWords['naming'];
  readonly chosen: ColumnName;
  choose(name: ColumnName): void;
}

function NameChoice({ label, say, chosen, choose }: NameChoiceProps) {
  return (
    <select
      aria-label={label}
      value={chosen}
      onChange={(event) => {
        const name = COLUMN_NAMES.find((one) => one === event.currentTarget.value);
        if (name !== undefined) choose(name);
      }}
    >
      {COLUMN_NAMES.map((name) => (
        <option key={name} value={name}>
          {say.column[name]}
        </option>
      ))}
    </select>
  );
}
