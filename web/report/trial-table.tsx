/** Every trial of the session, as it stands. */
import { NO_VALUE } from '#core/metrology/format.ts';
import type { MeasuredValue } from '#core/metrology/measured-value.ts';
import { speedToTell } from '#core/experiment/budget/answer.ts';
import { levelWords } from '#core/experiment/plan/factors.ts';
import type { TrialView } from '#core/live-messages.ts';
import { plainText } from '../model/coefficient.ts';
import { stateWords, valueText } from '../model/trial-words.ts';
import { resultText, timeOfDay } from '../model/words.ts';
import { Scroller, Section } from './section.tsx';
import type { Report } from './state.ts';

const BESIDE = ['voltage_V', 'current_A', 'windSpeed_mps'] as const;

export function TrialTable({ report }: { report: Report }) {
  const { bench, say, words } = report;
  const trials = bench.trials.value;
  const { section, trials: said } = say.value;
  const { quantity, bench: ofBench, top } = words.value;
  const { heads } = ofBench.trial;
  const hasPlan = bench.experiment.value.plan !== null;
  const beside = BESIDE.filter((one) => trials.some((trial) => trial[one] !== null));
  const tips = trials.map((trial) => {
    return speedToTell(trial, bench.experiment.value)?.tipSpeedRatio ?? null;
  });
  const hasTips = tips.some((one) => one !== null);
  if (trials.length === 0) {
    return (
      <Section name={section.trials}>
        <p class="soft">{top.list.empty}</p>
      </Section>
    );
  }
  return (
    <Section name={section.trials} class="wide">
      <Scroller name={section.trials}>
        <table class="trial-table">
          <thead>
            <tr>
              <th scope="col">{heads.trial}</th>
              {hasPlan && <th scope="col">{heads.set}</th>}
              <th scope="col" class="number">
                {quantity.power_W}
              </th>
              {beside.map((one) => (
                <th key={one} scope="col" class="number">
                  {quantity[one]}
                </th>
              ))}
              {hasTips && (
                <th scope="col" class="number">
                  {said.heads.tips}
                </th>
              )}
              <th scope="col" class="number">
                {said.heads.time}
              </th>
              <th scope="col">{heads.state}</th>
            </tr>
          </thead>
          <tbody>
            {trials.map((trial, place) => (
              <tr key={trial.id} data-trial={trial.id} class={countsNot(trial) ? 'faint' : ''}>
                <th scope="row">{trial.id}</th>
                {hasPlan && <td class="set">{setTo(report, trial)}</td>}
                <td class="number power">
                  <Value of={trial}>
                    {trial.power_W === null
                      ? NO_VALUE
                      : resultText(trial.power_W, report.prefixes.value, words.value)}
                  </Value>
                </td>
                {beside.map((one) => (
                  <td key={one} class="number">
                    <Value of={trial}>
                      {valueText(trial, one, report.prefixes.value, words.value)}
                    </Value>
                  </td>
                ))}
                {hasTips && (
                  <td class="number">
                    <Value of={trial}>{tipsText(tips[place] ?? null, report)}</Value>
                  </td>
                )}
                <td class="number">{timeOfDay(trial.recordedAt)}</td>
                <td>{stateWords(trial, top.list)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroller>
      <p class="note soft">
        {said.note} {!report.isForStudents.value && hasPlan && said.below}
      </p>
    </Section>
  );
}

function tipsText(ratio: MeasuredValue | null, { words }: Report): string {
  return ratio === null ? NO_VALUE : plainText(ratio, words.value);
}

function countsNot({ struck, recorded }: TrialView): boolean {
  return struck || !recorded;
}

function Value({ of, children }: { of: TrialView; children: preact.ComponentChildren }) {
  return of.struck ? <s>{children}</s> : <>{children}</>;
}

function setTo({ bench, words }: Report, { runId }: TrialView): string {
  const { plan, runs } = bench.experiment.value;
  const run = runs.find(({ id }) => id === runId);
  if (plan === null || run === undefined) return words.value.bench.trial.noRun;
  return run.group === null ? levelWords(plan, run) : `${levelWords(plan, run)}, ${run.group}`;
}
