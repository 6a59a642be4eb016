import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { importTrials } from '#core/experiment/import/import-trials.ts';
import { ImportedTrialSchema, MOST_IMPORTED } from '#core/experiment/import/row.ts';
import { runsForImport } from '#core/experiment/import/runs-of-rows.ts';
import { factorsOf } from '#core/experiment/plan/factors.ts';
import type { Factor, Plan } from '#core/experiment/plan/plan.ts';
import { runsOf } from '#core/experiment/plan/runs.ts';
import { anglePlan, lengthPlan } from '#core/experiment/plan/templates.ts';
import { expandedUncertainty } from '#core/metrology/format.ts';
import { enByHand } from '../../../web/words/by-hand/en.ts';
import { faultWords } from '../../../web/words/by-hand-words.ts';
import { plans } from './plan-arbitrary.ts';

const table = (...lines: string[]) => lines.join('\r\n');

/** What is wrong, as "line: sentence". */
function problemsOf(text: string, plan: Plan | null = null): string[] {
  const { problems } = importTrials(text, plan);
  return problems.map(({ line, fault }) => `${line}: ${faultWords(enByHand.imported.fault, fault)}`);
}

function onlyTrial(text: string, plan: Plan | null = null) {
  const { trials, problems } = importTrials(text, plan);
  expect(problems).toEqual([]);
  expect(trials).toHaveLength(1);
  return trials[0]!;
}

describe('a row', () => {
  it('is a trial, in SI', () => {
    const trial = onlyTrial(
      table(
        'round,group,angle_deg,voltage_mV,current_mA,power_mW,wind_kmph,u_power_mW,dof_power,note',
        '2,red,20,2310,43.1,99.5,14.4,0.8,7,"fan on ""2"", window open"',
      ),
    );
    expect(trial).toEqual({
      line: 2,
      round: 2,
      group: 'red',
      factors: { angle_deg: 20 },
      note: 'fan on "2", window open',
      run: null,
      rotorStill: false,
      recorded: true,
      struck: false,
      strikeReason: null,
      values: {
        voltage_V: { value: 2.31, standardUncertainty: null, degreesOfFreedom: 0 },
        current_A: { value: 0.0431, standardUncertainty: null, degreesOfFreedom: 0 },
        power_W: { value: 0.0995, standardUncertainty: 0.0008, degreesOfFreedom: 7 },
        windSpeed_mps: { value: 4, standardUncertainty: null, degreesOfFreedom: 0 },
        rotorSpeed_radps: null,
      },
    });
  });

  it('without power has voltage times current, known where both are', () => {
    const header = 'angle_deg,voltage_V,current_A,u_voltage_V,u_current_A,dof_voltage,dof_current';
    const known = onlyTrial(table(header, '20,2,0.05,0.02,0.0004,4,9')).values.power_W!;
    expect(known.value).toBeCloseTo(0.1, 12);
    // GUM 5.1.2 and G.4.1: 0.05 · 0.02 = 1.0 mW (4), 2 · 0.0004 = 0.8 mW (9).
    expect(known.standardUncertainty).toBeCloseTo(Math.hypot(1e-3, 0.8e-3), 9);
    expect(known.degreesOfFreedom).toBeCloseTo(1.64 ** 2 / (1 / 4 + 0.8 ** 4 / 9), 6);
    const unknown = onlyTrial(table(header, '20,2,0.05,0.02,,4,9')).values.power_W!;
    expect(expandedUncertainty(unknown)).toBeNull();
  });

  it('needs no voltage where there is power', () => {
    expect(onlyTrial(table('blades,power_mW', '3,98')).values.power_W?.value).toBeCloseTo(0.098, 12);
  });

  it('that can’t be read is named, and the others are still there', () => {
    const text = table(
      'angle_deg,voltage_V,current_mA',
      '20,2.31,43.1',
      '35,,40',
      '50,2.1',
      '',
      '50,"2,1",40',
      ',2.1,40',
      '50,2.1,forty',
      '50,5000,40',
      '70,1.1,20',
    );
    const { trials } = importTrials(text, null);
    expect(trials.map(({ line }) => line)).toEqual([2, 10]);
    expect(problemsOf(text)).toEqual([
      '3: There is no voltage. Fill it in, or take the row out.',
      '4: There are 2 fields, but 3 columns. Put the row right, or take it out.',
      '6: voltage_V: “2,1” could be two numbers. Use a point as the decimal sign in the whole table.',
      '7: angle_deg is empty. Fill it in, or take the row out.',
      '8: current_mA: “forty” is not a number. Put it right, or take the row out.',
      '9: voltage_V: 5000 is not possible here. Check the number and the unit in the first row.',
    ]);
  });

  it('of which power and voltage times current disagree has a wrong unit', () => {
    expect(problemsOf(table('angle_deg,voltage_V,current_A,power_W', '20,2.3,0.043,98.9'))).toEqual([
      '2: Power is 98.9 W, but voltage times current is 0.0989 W. Check the units in the first row.',
    ]);
  });

  it('whose note is too long is not cut short', () => {
    const text = table('angle_deg,power_W,note', `20,0.1,${'x'.repeat(501)}`);
    expect(problemsOf(text)).toEqual(['2: note has more than 500 letters. Shorten it.']);
  });

  it('has no uncertainty below nothing', () => {
    expect(problemsOf(table('angle_deg,power_W,u_power_W', '20,0.1,-0.01'))).toEqual([
      '2: u_power_W is below 0. Put it right, or take the row out.',
    ]);
  });
});

describe('the decimal comma', () => {
  it('is one where something else separates', () => {
    const trial = onlyTrial('angle_deg;voltage_V;current_mA\n20;2,314;43,1\n');
    expect(trial.values.voltage_V?.value).toBe(2.314);
    expect(onlyTrial('angle_deg\tpower_W\n22,5\t0,1\n').factors).toEqual({ angle_deg: 22.5 });
  });

  it('and a point in one table are asked back', () => {
    expect(problemsOf('angle_deg;voltage_V;current_mA\n20;2,31;43.1\n')).toEqual([
      '2: current_mA: “43.1” could be two numbers. Other numbers of the table have a decimal comma. Use one sign in the whole table.',
    ]);
  });
});

describe('levels', () => {
  it('without a plan are numbers where all are, else names', () => {
    const text = table('angle_deg,tip,power_W', '20,1,0.1', '35,round,0.2');
    expect(importTrials(text, null).trials.map(({ factors }) => factors)).toEqual([
      { angle_deg: 20, tip: '1' },
      { angle_deg: 35, tip: 'round' },
    ]);
  });

  it('with a plan may stand by label, or in another unit of length', () => {
    const plan = lengthPlan(1);
    const of = (...lines: string[]) => onlyTrial(table(...lines), plan).factors;
    expect(of('length_m,power_W', '"short, 55 mm",0.1')).toEqual({ length_m: 0.055 });
    expect(of('length_m,power_W', '0.08,0.1')).toEqual({ length_m: 0.08 });
    expect(of('length_mm,power_W', '80,0.1')).toEqual({ length_m: 0.08 });
    expect(of('length_cm,power_W', '10.5,0.1')).toEqual({ length_m: 0.105 });
  });

  it('of names only must be in the plan', () => {
    const tip: Factor = {
      kind: 'own',
      key: 'tip',
      name: 'Tip',
      levels: [{ label: 'round', value: null }, { label: 'cut off', value: null }],
      baseLevel: 0,
    };
    const plan = { ...anglePlan(1), factors: [tip] };
    expect(problemsOf(table('tip,power_W', 'Cut  OFF,0.1', 'bent,0.1'), plan)).toEqual([
      '3: “bent” is no level of tip in the plan, which has “round”, “cut off”.',
    ]);
  });

  it('with a plan, other columns are none', () => {
    const { columns } = importTrials(table('angle_deg,student,power_W', '20,x,0.1'), anglePlan(1));
    expect(columns.map(({ as }) => as)).toEqual(['factor', 'unused', 'value']);
  });

  it('without one, times and counters are none', () => {
    const { columns } = importTrials(table('time_s,seq,date,id,angle_deg,power_W', '1,2,3,4,20,0.1'), null);
    expect(columns.map(({ as }) => as)).toEqual([
      'unused', 'unused', 'unused', 'unused', 'factor', 'value',
    ]);
  });
});

describe('rounds', () => {
  const roundsOf = (...texts: string[]) => {
    const rows = texts.map((text) => `${text},20,0.1`);
    return importTrials(table('block,angle_deg,power_W', ...rows), null).trials.map(({ round }) => round);
  };

  it('are numbers as they stand, names in their order', () => {
    expect(roundsOf('3', '1', '')).toEqual([3, 1, null]);
    expect(roundsOf('morning', 'noon', 'morning')).toEqual([1, 2, 1]);
  });
});

describe('the table', () => {
  it.each([
    ['', '1: There is nothing in the table.'],
    ['a\0b', '1: This is not plain text. Save the table as CSV in UTF-8.'],
    [
      '20,2.3,43',
      '1: There are numbers where the names of the columns should be. Put a row such as angle_deg,voltage_V,current_mA above them.',
    ],
    [
      'angle_deg,voltage_V',
      '1: There is neither power nor voltage and current. Name the columns with their units: voltage_V, current_mA, power_mW.',
    ],
    ['angle_deg,power', '1: Column power is not read: call it power_W or power_mW.'],
    ['angle_deg,power_W,power_W', '1: Two columns are called power_W. Take one out.'],
    ['angle_deg,power_W,power_mW', '1: Columns power_W and power_mW say the same. Take one out.'],
    ['power_W', '1: There is no column with the levels of a factor, for instance angle_deg.'],
  ])('that can’t be read: %j', (text, problem) => {
    expect(problemsOf(text)).toEqual([problem]);
    expect(importTrials(text, null).trials).toEqual([]);
  });

  it('of which one quantity lacks its unit is read without it, and says so', () => {
    const text = table('angle_deg,power_W,wind', '20,0.1,4');
    expect(importTrials(text, null).trials).toHaveLength(1);
    expect(problemsOf(text)).toEqual([
      '1: Column wind is not read: call it wind_mps or wind_kmph or wind_mph.',
    ]);
  });

  it('with a quotation mark that has no partner is read up to there', () => {
    const text = table('angle_deg,power_W,note', '20,0.1,fine', '35,0.2,"open');
    expect(importTrials(text, null).trials.map(({ line }) => line)).toEqual([2]);
    expect(problemsOf(text)).toEqual([
      '3: The row does not end: a quotation mark lacks its partner. Put it right and try again.',
    ]);
  });

  it('with too many rows is no lesson’s', () => {
    const rows = Array.from({ length: MOST_IMPORTED + 1 }, () => '20,0.1');
    expect(problemsOf(table('angle_deg,power_W', ...rows))).toEqual([
      `${MOST_IMPORTED + 2}: There are more than ${MOST_IMPORTED} rows. Take out what is no trial.`,
    ]);
  });

  it('whatever it holds, what it gives is finite and can be recorded', () => {
    const cell = fc.oneof(
      fc.constantFrom('', '20', '2.31', '2,31', 'nan', '"', '"a,b"', '-1', '1e400'),
      fc.string({ maxLength: 6 }),
    );
    const rows = fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { maxLength: 8 });
    fc.assert(
      fc.property(rows, fc.constantFrom(',', ';', '\t'), (cells, separator) => {
        const header = ['angle_deg', 'voltage_V', 'current_mA'].join(separator);
        const lines = cells.map((row) => row.join(separator));
        const { trials } = importTrials([header, ...lines].join('\n'), null);
        for (const trial of trials) expect(ImportedTrialSchema.parse(trial)).toEqual(trial);
      }),
    );
  });
});

describe('docs/experiment.md', () => {
  it('shows a table that can be read', () => {
    const text = readFileSync(join(import.meta.dirname, '../../../docs/experiment.md'), 'utf8');
    const example = /```\n(round,[^`]*)```/.exec(text)?.[1] ?? '';
    const { trials, problems } = importTrials(example, null);
    expect(problems).toEqual([]);
    expect(trials.map(({ factors, note }) => ({ ...factors, note }))).toEqual([
      { angle_deg: 20, note: null },
      { angle_deg: 35, note: 'blade 2 loose, tightened' },
    ]);
  });
});

describe('the runs of a table', () => {
  it('written from a plan’s own runs, whatever their order, are those runs', () => {
    const written = plans.filter(({ repeats }) => repeats === 1).chain((plan) =>
      fc.record({ plan: fc.constant(plan), runs: fc.shuffledSubarray(runsOf(plan).filter(({ isReference }) => !isReference)) }),
    );
    const quoted = (text: string | number) => `"${String(text).replaceAll('"', '""')}"`;
    fc.assert(
      fc.property(written, ({ plan, runs }) => {
        const keys = plan.factors.map(({ key }) => key).filter((key) => key !== 'group');
        // A factor called "group" would be the column of groups too.
        fc.pre(keys.length === plan.factors.length);
        const lines = runs.map((run) => {
          const levels = keys.map((key) => quoted(factorsOf(plan, run)[key] ?? ''));
          return [run.round, quoted(run.group ?? ''), ...levels, '0.1'].join(',');
        });
        const text = table(['round', 'group', ...keys, 'power_W'].join(','), ...lines);
        const { trials, problems } = importTrials(text, plan);
        expect(problems).toEqual([]);
        expect(runsForImport(trials, plan, runsOf(plan))).toEqual(runs.map(({ id }) => id));
      }),
    );
  });

  it('are each taken once; a row too many has none', () => {
    const plan = { ...anglePlan(1), order: 'listed' as const, rounds: 2 };
    const { trials } = importTrials(
      table('angle_deg,power_W', '8,0.1', '8,0.1', '8,0.1', '9,0.1'),
      plan,
    );
    expect(runsForImport(trials, plan, runsOf(plan))).toEqual([
      'r1 angle_deg=8',
      'r2 angle_deg=8',
      null,
      null,
    ]);
  });
});
