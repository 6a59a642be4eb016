/** Figures of the rig from readings of it: typed, or taken from the session's trials. */
import { LONGEST_TYPED } from '#core/experiment/keyed-form.ts';
import { generatorReadingsOf, lampReadingsOf } from '#core/experiment/readings-of-trials.ts';
import { MOST_STEPS, SPEEDS } from '#core/rotor/fitting/generator-readings.ts';
import { shownGenerator, shownLamp, type ShownFit } from '../model/fit-text.ts';
import { ariaOf } from '../plan/fields.tsx';
import type { PageState } from '../view/page-state.ts';
import { faultWords } from '../words/by-hand-words.ts';
import type { Catalogue } from '../words/catalogue.ts';
import {
  areSame,
  COLUMNS,
  EMPTY_ROW,
  isBlank,
  PARTS,
  readGenerator,
  readLamp,
  rowsOf,
  type FitFault,
  type FitProblems,
  type FitRow,
  type Part,
} from './fit-form.ts';
import { FitPlot } from './fit-plot.tsx';

interface PartProps {
  readonly page: PageState;
  readonly part: Part;
}

export function FitSheet({ page }: { page: PageState }) {
  return (
    <div class="fits">
      {PARTS.map((part) => (
        <PartForm key={part} page={page} part={part} />
      ))}
    </div>
  );
}

function PartForm({ page, part }: PartProps) {
  const { fitting } = page.operator;
  const words = page.words.value;
  const say = words.fit;
  const { command, problems, shown } = foundOf(page, part);
  const use = (event: Event): void => {
    event.preventDefault();
    fitting.tried.value = part;
    if (command !== null && shown?.isUsable === true) void page.operator.say(command);
  };
  const change = (rows: readonly FitRow[]): void => {
    fitting.form.value = { ...fitting.form.value, [part]: rows };
  };
  const taken = fitting.taken.value[part];
  return (
    <form class="plan-form fit-form" noValidate onSubmit={use} aria-label={say.heading[part]}>
      <div>
        <h3>{say.heading[part]}</h3>
        <p class="soft">{say.how[part]}</p>
        {part === 'generator' && <SpeedChoice page={page} />}
        <Rows page={page} part={part} problems={problems} onRows={change} />
        <p class="fit-ways">
          <button type="button" class="underlined" onClick={() => take(page, part)}>
            {say.take}
          </button>
          <button type="button" class="underlined" onClick={() => change([])}>
            {say.clear}
          </button>
        </p>
        <p role="status">{taken ?? ''}</p>
      </div>
      <div class="fit-found" role="status">
        {shown?.sentences.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {shown?.gaps.map((gap) => (
          <p key={gap} class="missing">
            {gap}
          </p>
        ))}
        {shown?.picture && <FitPlot picture={shown.picture} words={words} />}
        <UseIt page={page} part={part} shown={shown} />
      </div>
    </form>
  );
}

/** What is typed as a command, and what it says. */
function foundOf(page: PageState, part: Part) {
  const form = page.operator.fitting.form.value;
  const words = page.words.value;
  if (part === 'generator') {
    const { readings, problems } = readGenerator(form);
    const command = readings && ({ say: 'fit-generator', readings } as const);
    return { command, problems, shown: readings && shownGenerator(readings, words) };
  }
  const { readings, problems } = readLamp(form);
  const command = readings && ({ say: 'fit-lamp', readings } as const);
  return { command, problems, shown: readings && shownLamp(readings, words) };
}

function SpeedChoice({ page }: { page: PageState }) {
  const { fitting } = page.operator;
  const say = page.words.value.fit;
  return (
    <label class="fit-speed">
      <span class="soft">{say.speed}</span>{' '}
      <select
        name="fit.speed"
        value={fitting.form.value.speed}
        onChange={({ currentTarget }) => {
          const speed = SPEEDS.find((one) => one === currentTarget.value);
          if (speed !== undefined) fitting.form.value = { ...fitting.form.value, speed };
        }}
      >
        {SPEEDS.map((speed) => (
          <option key={speed} value={speed}>
            {say.speeds[speed]}
          </option>
        ))}
      </select>
    </label>
  );
}

interface RowsProps extends PartProps {
  readonly problems: FitProblems;
  onRows(rows: readonly FitRow[]): void;
}

/** Never fewer lines than these, and always one that is empty. */
const LEAST_ROWS = 3;

function Rows({ page, part, problems, onRows }: RowsProps) {
  const { fitting } = page.operator;
  const words = page.words.value;
  const say = words.fit;
  const form = fitting.form.value;
  const columns = COLUMNS.filter((column) => {
    return column !== 'speed' || (part === 'generator' && form.speed === 'read');
  });
  const typed = form[part].slice(0, form[part].findLastIndex((row) => !isBlank(row)) + 1);
  const count = Math.min(Math.max(typed.length + 1, LEAST_ROWS), MOST_STEPS);
  const rows = Array.from({ length: count }, (_, i) => typed[i] ?? EMPTY_ROW);
  const problemAt = (cell: string): string | null => {
    const problem = problems[cell];
    if (problem === undefined) return null;
    const isLate = fitting.left.value.has(`${part}.${cell}`) && problem.kind !== 'needed';
    return isLate || fitting.tried.value === part ? faultText(problem, words) : null;
  };
  return (
    <table class="fit-rows">
      <thead class="soft">
        <tr>
          {columns.map((column) => (
            <th key={column} scope="col">
              {say.column[column]}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, place) => (
          <tr key={place}>
            {columns.map((column) => {
              const cell = `${place}.${column}`;
              const problem = problemAt(cell);
              const name = `fit.${part}.${cell}`;
              return (
                <td key={column}>
                  <input
                    name={name}
                    aria-label={say.cell(place + 1, say.column[column])}
                    inputMode="decimal"
                    maxLength={LONGEST_TYPED}
                    autocomplete="off"
                    value={row[column]}
                    {...ariaOf(name, problem)}
                    onInput={({ currentTarget }) => {
                      onRows(rows.with(place, { ...row, [column]: currentTarget.value }));
                    }}
                    onBlur={() => {
                      fitting.left.value = new Set([...fitting.left.value, `${part}.${cell}`]);
                    }}
                  />
                  {problem !== null && (
                    <p class="field-problem" id={`problem-${name}`}>
                      {problem}
                    </p>
                  )}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function faultText(fault: FitFault, words: Catalogue): string {
  if (fault.kind === 'needed') return words.fit.needed;
  if (fault.kind === 'between') {
    return words.fit.between(words.number(String(fault.low)), words.number(String(fault.high)));
  }
  return faultWords(words.bench.byHand.keyed.fault, fault);
}

/** Fills the table with what the session's trials have read, or says why they hold nothing. */
function take(page: PageState, part: Part): void {
  const { fitting } = page.operator;
  const { fit: say, number } = page.words.value;
  const trials = page.bench.trials.value;
  const { rotorAndAir } = page.bench.experiment.value;
  const generator = part === 'generator' ? generatorReadingsOf(trials, rotorAndAir) : null;
  const found = generator ?? lampReadingsOf(trials);
  const tell = (text: string): void => {
    fitting.taken.value = { ...fitting.taken.value, [part]: text };
  };
  if (typeof found === 'string') return tell(say.none[found]);
  const { readings, trialIds, passedOver } = found;
  const { speed } =
    generator !== null && typeof generator !== 'string' ? generator.readings : fitting.form.value;
  fitting.form.value = { ...fitting.form.value, speed, [part]: rowsOf(readings.steps, number) };
  tell(say.taken(trialIds.length, passedOver));
}

function UseIt({ page, part, shown }: PartProps & { readonly shown: ShownFit | null }) {
  const say = page.words.value.fit;
  const inUse = page.bench.experiment.value.fits[part];
  const found = foundOf(page, part).command;
  const isSame = inUse !== null && found !== null && areSame(found.readings, inUse);
  const drop = (): void => {
    void page.operator.say({ say: `fit-${part}`, readings: null });
  };
  return (
    <p class="plan-end">
      {!isSame && (
        <button type="submit" class="strong" disabled={shown?.isUsable === false}>
          {say.use}
        </button>
      )}
      {inUse !== null && (
        <>
          <b>{isSame ? say.inUse : say.otherInUse}</b>
          <button type="button" class="underlined" onClick={drop}>
            {say.leave}
          </button>
        </>
      )}
    </p>
  );
}
