/** A table of trials from elsewhere: what is understood of it is looked at before it is taken in. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { importTrials, type TrialsImport } from '#core/experiment/import/import-trials.ts';
import { asOfGroup } from '#core/experiment/import/runs-of-rows.ts';
import { previewRows, type PreviewedRow } from '#core/experiment/import/preview.ts';
import type { ImportColumn } from '#core/experiment/import/columns.ts';
import { NO_VALUE, prefixFor } from '#core/metrology/format.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import { labelOf, runById } from '../model/experiment.ts';
import { KINDS } from '../model/quantities.ts';
import { resultText } from '../model/words.ts';
import type { PageState } from '../view/page-state.ts';
import { faultWords } from '../words/by-hand-words.ts';
import { putTable, takeFile } from './bringing-in.ts';
import { Apart, isOwnBench, OtherWay } from './own-bench.tsx';

export function TableSheet({ page }: { page: PageState }) {
  const { isShown } = page.operator.bringingIn;
  if (!isShown.value) return null;
  const { heading } = page.words.value.bench.byHand.imported;
  const close = (): void => {
    isShown.value = false;
  };
  return (
    <section
      class="plan-form by-hand"
      id="table"
      aria-label={heading}
      onKeyDown={(event) => event.key === 'Escape' && close()}
    >
      {isOwnBench(page.bench.status.value) ? <TableForm page={page} /> : <Apart page={page} />}
    </section>
  );
}

function TableForm({ page }: { page: PageState }) {
  const { bringingIn } = page.operator;
  const { text, problem, isShown } = bringingIn;
  const { bench } = page.words.value;
  const say = bench.byHand.imported;
  const chooser = useRef<HTMLInputElement>(null);
  // By keys: Enter chooses a file, Tab goes on to where a table is pasted.
  useLayoutEffect(() => chooser.current?.focus(), []);
  return (
    <>
      <p class="soft">{say.hint}</p>
      <div class="table-from">
        <label class="strong file">
          {say.choose}
          <input
            ref={chooser}
            class="sr"
            type="file"
            name="table-file"
            accept=".csv,.txt,.tsv,.zip,text/csv,text/plain"
            onChange={({ currentTarget }) => {
              const [file] = currentTarget.files ?? [];
              if (file !== undefined) void takeFile(bringingIn, file);
              // The same file again, put right meanwhile, is a change too.
              currentTarget.value = '';
            }}
          />
        </label>
        <textarea
          name="table"
          rows={4}
          spellcheck={false}
          aria-label={say.paste}
          placeholder={say.paste}
          value={text.value}
          onInput={({ currentTarget }) => putTable(bringingIn, currentTarget.value, '')}
        />
      </div>
      {problem.value !== null && (
        <p class="field-problem" role="alert">
          {say[problem.value]}
        </p>
      )}
      {text.value.trim() === '' ? (
        <p class="plan-end">
          <button type="button" class="underlined" onClick={() => (isShown.value = false)}>
            {bench.close}
          </button>
          <OtherWay page={page} to="key-in" />
        </p>
      ) : (
        <Preview page={page} text={text.value} />
      )}
    </>
  );
}

function Preview({ page, text }: { page: PageState; text: string }) {
  const { operator, bench, words } = page;
  const { bringingIn } = operator;
  const { again, name, isShown, group } = bringingIn;
  const say = words.value.bench.byHand.imported;
  const experiment = bench.experiment.value;
  const { plan } = experiment;
  const read = importTrials(text, plan);
  const ofGroup = plan?.groups.find((one) => one === group.value);
  const trials = ofGroup === undefined ? read.trials : asOfGroup(read.trials, ofGroup);
  const table = { ...read, trials };
  const rows = previewRows(
    trials,
    {
      plan,
      openRuns: experiment.runs.filter((run) => run.trialIds.length === 0 && run.status !== 'skipped'),
      trials: bench.trials.value,
    },
    again.value,
  );
  const present = rows.filter(({ presentAs }) => presentAs !== null).length;
  const taken = rows.filter(({ presentAs }) => again.value || presentAs === null);
  const wrong = new Set(table.problems.map(({ line }) => line).filter((line) => line > 1)).size;
  const bringIn = async (): Promise<void> => {
    const done = await operator.say({
      say: 'bring-in',
      name: name.value,
      rows: taken.map(({ row, runId }) => ({ ...row, runId })),
      again: again.value,
    });
    if (!done) return;
    putTable(bringingIn, '', '');
    isShown.value = false;
  };
  return (
    <>
      {plan !== null && plan.groups.length > 0 && (
        <label>
          {say.ofGroup}{' '}
          <select
            name="group"
            value={ofGroup ?? ''}
            onChange={({ currentTarget }) => (group.value = currentTarget.value || null)}
          >
            <option value="">{say.asTold}</option>
            {plan.groups.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
        </label>
      )}
      {table.trials.length > 0 && <Understood page={page} table={table} rows={rows} />}
      <Problems page={page} table={table} wrong={wrong} />
      {present > 0 && (
        <p>
          {say.presentCount(present)}{' '}
          <label class="radio">
            <input
              type="checkbox"
              name="again"
              checked={again.value}
              onChange={({ currentTarget }) => (again.value = currentTarget.checked)}
            />
            {say.takeAgain}
          </label>
        </p>
      )}
      <p class="plan-end">
        {taken.length > 0 ? (
          <button type="button" class="strong" onClick={() => void bringIn()}>
            {wrong === 0 ? say.bringIn(taken.length) : say.withoutWrong(taken.length, wrong)}
          </button>
        ) : (
          <b>{say.nothing}</b>
        )}
        <button type="button" class="underlined" onClick={() => (isShown.value = false)}>
          {words.value.bench.close}
        </button>
      </p>
    </>
  );
}

interface TableParts {
  readonly page: PageState;
  readonly table: TrialsImport;
}

function Problems({ page, table, wrong }: TableParts & { readonly wrong: number }) {
  const say = page.words.value.bench.byHand.imported;
  if (table.problems.length === 0) return null;
  return (
    <div class="table-problems" role="alert">
      {wrong > 0 && <p>{say.wrong(wrong)}</p>}
      <ul>
        {table.problems.map(({ line, fault }, i) => (
          <li key={i}>
            <b>{say.line(line)}:</b> {faultWords(say.fault, fault)}
          </li>
        ))}
      </ul>
    </div>
  );
}

interface UnderstoodProps extends TableParts {
  readonly rows: readonly PreviewedRow[];
}

function Understood({ page, table, rows }: UnderstoodProps) {
  const { bench, quantity } = page.words.value;
  const { imported } = bench.byHand;
  const values = rows.map(({ row }) => row.values);
  const most = Math.max(...values.map(({ power_W }) => Math.abs(power_W?.value ?? 0)));
  const prefixes = { power_W: prefixFor(most || KINDS.power_W.usual) };
  const read = table.columns.filter(isRead);
  const unread = table.columns.filter((one) => !isRead(one));
  const isUnknown = values.some(({ power_W }) => power_W?.standardUncertainty === null);
  return (
    <>
      <p>
        <b>{imported.understood(rows.length)}</b>{' '}
        <span class="soft">
          {imported.columns}: {namesOf(read)}.
          {unread.length > 0 && ` ${imported.notRead}: ${namesOf(unread)}.`}
        </span>
      </p>
      <div class="table-rows" tabIndex={0} role="group" aria-label={imported.heading}>
        <table>
          <thead class="soft">
            <tr>
              <th scope="col">{imported.heads.line}</th>
              <th scope="col">{imported.heads.set}</th>
              <th scope="col">{quantity.power_W}</th>
              <th scope="col">{imported.heads.goesTo}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((previewed) => {
              const { row } = previewed;
              const { power_W } = row.values;
              return (
                <tr key={row.line} data-line={row.line}>
                  <td>{row.line}</td>
                  <td>{Object.values(row.factors).join(', ')}</td>
                  <td>
                    {power_W === null ? NO_VALUE : resultText(power_W, prefixes, page.words.value)}
                  </td>
                  <td>{becomes(page, previewed, page.bench.experiment.value)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {isUnknown && <p class="soft">{imported.noUncertainty}</p>}
    </>
  );
}

function isRead({ as }: ImportColumn): boolean {
  return as !== 'unused' && as !== 'without-unit';
}

function namesOf(columns: readonly ImportColumn[]): string {
  return columns.map(({ name }) => name).join(' · ');
}

/** The run that a row will be of, or that it is here already. */
function becomes(
  { words }: PageState,
  { row, runId, presentAs }: PreviewedRow,
  experiment: ExperimentView,
): string {
  const { imported } = words.value.bench.byHand;
  const run = runById(experiment, runId);
  const { plan } = experiment;
  const parts = [
    presentAs !== null && imported.present(presentAs),
    run !== null && plan !== null && words.value.bench.run.named(run.round, labelOf(plan, run)),
    run !== null && run.group,
    row.struck && imported.struck,
    presentAs === null && run === null && !row.struck && imported.noRun,
  ];
  return parts.filter((part) => part !== false && part !== null).join(' · ');
}
