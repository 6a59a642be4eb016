/** The columns of the package's other tables: plateaus, runs of the plan, deeds, samples. */
import type { ClosedPlateau } from '#core/events.ts';
import type { Plan, Run } from '#core/experiment/plan/plan.ts';
import { CHANNELS, QUANTITIES, type Sample } from '#core/signal/sample.ts';
import type { Cell } from './csv-text.ts';
import { factorName, wholeSeconds, type Column } from './table.ts';

const UNITS: Readonly<Record<(typeof QUANTITIES)[number], string>> = {
  voltage_V: 'V',
  current_A: 'A',
  power_W: 'W',
  windSpeed_mps: 'm/s',
  rotorSpeed_radps: 'rad/s',
};

export interface PlateauRow {
  readonly recording: number;
  readonly plateau: ClosedPlateau;
}

export function plateauColumns(): Column<PlateauRow>[] {
  return [
    { name: 'recording', type: 'integer', description: 'Recording that the times belong to.', of: ({ recording }) => recording },
    { name: 'start_s', type: 'number', unit: 's', description: 'Start of the interval that the means are taken over.', of: ({ plateau }) => plateau.start_s },
    { name: 'end_s', type: 'number', unit: 's', description: 'End of that interval.', of: ({ plateau }) => plateau.end_s },
    { name: 'declared_s', type: 'number', unit: 's', description: 'When the program first said settled.', of: ({ plateau }) => plateau.declared_s },
    { name: 'kind', type: 'string', description: 'trial: became a trial; brief: too short, or not wanted; interrupted: cut before it was one.', of: ({ plateau }) => kindOf(plateau) },
    { name: 'trial', type: 'integer', description: 'Number of that trial.', of: ({ plateau }) => plateau.trialId },
    { name: 'end_reason', type: 'string', description: 'changed: a reading moved; interrupted: the link was cut; end: the stream ended.', of: ({ plateau }) => plateau.endReason },
    { name: 'sample_count', type: 'integer', description: 'Samples in the interval.', of: ({ plateau }) => plateau.sampleCount },
    { name: 'rotor_still', type: 'boolean', description: 'The rotor stood still in the wind.', of: ({ plateau }) => plateau.rotorStill },
    ...QUANTITIES.flatMap(estimateColumns),
  ];
}

function kindOf({ trialId, endReason }: ClosedPlateau): string {
  if (trialId !== null) return 'trial';
  return endReason === 'interrupted' ? 'interrupted' : 'brief';
}

function estimateColumns(quantity: (typeof QUANTITIES)[number]): Column<PlateauRow>[] {
  const unit = UNITS[quantity];
  const estimate = ({ plateau }: PlateauRow) => plateau.estimates[quantity];
  return [
    { name: quantity, type: 'number', unit, description: 'Mean. Empty: not measured; never zero.', of: (row) => estimate(row)?.mean ?? null },
    { name: `u_${quantity}`, type: 'number', unit, description: 'Its standard uncertainty, Type A (JCGM 100:2008, 4.2), for samples that resemble their neighbours.', of: (row) => estimate(row)?.standardUncertainty ?? null },
    { name: `dof_${quantity}`, type: 'number', description: 'Effective degrees of freedom of that uncertainty.', of: (row) => estimate(row)?.degreesOfFreedom ?? null },
    { name: `n_${quantity}`, type: 'number', description: 'Effective sample size.', of: (row) => estimate(row)?.effectiveSampleSize ?? null },
  ];
}

export interface RunRow {
  readonly place: number;
  readonly run: Run;
  readonly isSkipped: boolean;
  readonly trials: readonly number[];
}

const WHICH_RUN: readonly Column<RunRow>[] = [
  { name: 'place', type: 'integer', description: 'Place in the order in which the runs are to be done, from 1.', of: ({ place }) => place },
  { name: 'run', type: 'string', description: 'The run’s id: round, group, setting, repeat.', of: ({ run }) => run.id },
  { name: 'round', type: 'integer', description: 'A block in time: every level once.', of: ({ run }) => run.round },
  { name: 'group', type: 'string', description: 'Group or rig, where the plan has groups.', of: ({ run }) => run.group },
];

const WHAT_RUN: readonly Column<RunRow>[] = [
  { name: 'repeat', type: 'integer', description: '1: set anew; 2 and on: left as it was.', of: ({ run }) => run.repeat },
  { name: 'is_reference', type: 'boolean', description: 'A setting that comes back, to see drift.', of: ({ run }) => run.isReference },
  { name: 'is_again', type: 'boolean', description: 'Added by a person, to do a run once more.', of: ({ run }) => run.isAgain },
  { name: 'is_skipped', type: 'boolean', description: 'Left out by a person.', of: ({ isSkipped }) => isSkipped },
  { name: 'trials', type: 'string', description: 'Numbers of its trials that are not struck.', of: ({ trials }) => trials.join(' ') },
];

export function runColumns(plan: Plan | null): Column<RunRow>[] {
  const levels = (plan?.factors ?? []).flatMap(({ key, name, levels }, at): Column<RunRow>[] => {
    const level = ({ run }: RunRow) => levels[run.levels[at] ?? -1];
    const column = factorName(key, [...WHICH_RUN, ...WHAT_RUN]);
    return [
      { name: column, type: 'number', description: `${name}: value of the level; empty for a level that is only a name, or is no longer in the plan.`, of: (row) => level(row)?.value ?? null },
      { name: `${column}_label`, type: 'string', description: `${name}: the level as people read it.`, of: (row) => level(row)?.label ?? null },
    ];
  });
  return [...WHICH_RUN, ...levels, ...WHAT_RUN];
}

/** Something that a person did, as it was recorded. */
export interface DeedRow {
  readonly recording: number;
  readonly at_s: number;
  readonly at: string;
  readonly deed: string;
  readonly details: string;
}

export const DEED_COLUMNS: readonly Column<DeedRow>[] = [
  { name: 'recording', type: 'integer', description: 'Recording in which it was done.', of: ({ recording }) => recording },
  { name: 'at_s', type: 'number', unit: 's', description: 'When, on the recording’s own clock.', of: ({ at_s }) => at_s },
  { name: 'at', type: 'datetime', description: 'The same by the clock of the computer, UTC; a label.', of: ({ at }) => wholeSeconds(at) },
  { name: 'deed', type: 'string', description: 'What was done: strike, restore, note, move; what was said of the plan and its runs; zero; settings.', of: ({ deed }) => deed },
  { name: 'details', type: 'string', description: 'All of it, as JSON.', of: ({ details }) => details },
];

export const SAMPLE_COLUMNS: readonly Column<Sample>[] = [
  { name: 'time_s', type: 'number', unit: 's', description: 'Time since the recording began.', of: ({ time_s }) => time_s },
  ...CHANNELS.map((channel): Column<Sample> => {
    return { name: channel, type: 'number', unit: UNITS[channel], description: 'After calibration. Empty: missing, never zero.', of: (sample): Cell => sample[channel] };
  }),
];
