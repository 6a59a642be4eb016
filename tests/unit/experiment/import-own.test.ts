/** A table that was exported here is read in again with the same figures and marks. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { importTrials } from '#core/experiment/import/import-trials.ts';
import { presentRows } from '#core/experiment/import/present.ts';
import { previewRows } from '#core/experiment/import/preview.ts';
import { factorsOf } from '#core/experiment/plan/factors.ts';
import { PlanSchema } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import type { Trial } from '#core/experiment/trial.ts';
import { csvRow } from '../../../server/carry/csv-text.ts';
import { trialColumns } from '../../../server/carry/trial-columns.ts';
import type { StoredTrial } from '../../../server/store/store.ts';
import { trialView } from '../../server/http/support.ts';

const PLAN = PlanSchema.parse({ ...anglePlan(1), repeats: 2, reference: { every: 3, levels: [0] } });
const RUNS = runsOf(PLAN);

function exported(trials: readonly StoredTrial[]): string {
  const columns = trialColumns(trials);
  const rows = trials.map((trial) => csvRow(columns.map((column) => column.of(trial))));
  return csvRow(columns.map(({ name }) => name)) + rows.join('');
}

const positive = fc.double({ min: 1e-6, max: 10, noNaN: true });
const measured = (value: fc.Arbitrary<number>) =>
  fc.record({ value, standardUncertainty: fc.option(positive), degreesOfFreedom: positive }).map((one) =>
    one.standardUncertainty === null ? { ...one, degreesOfFreedom: 0 } : one,
  );
const text = (longest: number) =>
  fc.option(fc.string({ minLength: 1, maxLength: longest }).map((one) => one.trim()).filter((one) => one !== '' && !one.startsWith("'") && !one.includes('\0')));
const trials = fc
  .array(
    fc.record({
      volt: measured(positive),
      ampere: measured(fc.double({ min: 1e-6, max: 1, noNaN: true })),
      wind: fc.option(measured(fc.double({ min: 0, max: 20, noNaN: true }))),
      run: fc.option(fc.nat(RUNS.length - 1)),
      note: text(80),
      reason: text(80),
      struck: fc.boolean(),
      recorded: fc.boolean(),
      rotorStill: fc.boolean(),
    }),
    { minLength: 1, maxLength: 8 },
  )
  .map((all) =>
    all.map((one, i): StoredTrial => {
      const run = one.run === null ? undefined : RUNS[one.run];
      const { volt, ampere } = one;
      return {
        ...trialView(i + 1),
        recorded_s: i,
        voltage_V: volt,
        current_A: ampere,
        power_W: { ...volt, value: volt.value * ampere.value },
        windSpeed_mps: one.wind,
        runId: run?.id ?? null,
        factors: run === undefined ? {} : factorsOf(PLAN, run),
        note: one.note,
        struck: one.struck,
        strikeReason: one.struck ? one.reason : null,
        recorded: one.recorded,
        rotorStill: one.rotorStill,
      };
    }),
  );

describe('a table that was exported here', () => {
  it('gives the same figures, levels and marks, with its plan or without one', () => {
    fc.assert(
      fc.property(trials, fc.boolean(), (all, hasPlan) => {
        const { trials: rows, problems } = importTrials(exported(all), hasPlan ? PLAN : null);
        expect(problems).toEqual([]);
        const figures = ({ voltage_V, current_A, power_W, windSpeed_mps }: Pick<Trial, 'voltage_V' | 'current_A' | 'power_W' | 'windSpeed_mps'>) => ({ voltage_V, current_A, power_W, windSpeed_mps });
        expect(rows.map((row) => figures(row.values))).toEqual(all.map(figures));
        const marks = ({ factors, note, struck, strikeReason, recorded, rotorStill }: Pick<Trial, 'factors' | 'note' | 'struck' | 'strikeReason' | 'recorded' | 'rotorStill'>) => ({ factors, note, struck, strikeReason, recorded, rotorStill });
        expect(rows.map(marks)).toEqual(all.map(marks));
        expect(rows.map(({ run }) => run)).toEqual(all.map(({ runId }) => runId));
      }),
    );
  });

  it('is known again in the session that it came from', () => {
    fc.assert(
      fc.property(trials, (all) => {
        const { trials: rows } = importTrials(exported(all), null);
        expect(presentRows(rows, all).every((id) => id !== null)).toBe(true);
      }),
    );
  });

  it('goes to the very runs that it names, repeats and reference runs too', () => {
    const made = RUNS.map((run, i): StoredTrial => ({
      ...trialView(i + 1),
      recorded_s: i,
      runId: run.id,
      factors: factorsOf(PLAN, run),
      // The example's power is not its voltage times its current.
      voltage_V: null,
    }));
    const { trials: rows, problems } = importTrials(exported(made), PLAN);
    expect(problems).toEqual([]);
    const previewed = previewRows(rows, { plan: PLAN, openRuns: RUNS, trials: [] }, false);
    expect(previewed.map(({ runId }) => runId)).toEqual(RUNS.map(({ id }) => id));
  });

  it('of a simulated rig is not brought in', () => {
    const simulated = { ...trialView(1), recorded_s: 0, simulated: true };
    const { trials: rows, problems } = importTrials(exported([simulated]), null);
    expect(rows).toEqual([]);
    expect(problems).toEqual([{ line: 2, fault: { kind: 'simulated' } }]);
  });
});
