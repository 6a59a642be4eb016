/** The columns of trials.csv: one row a trial, as it stands now. */
import { CORRECTABLE } from '#core/experiment/correction.ts';
import { partsOf } from '#core/experiment/plan/run-id.ts';
import type { StoredTrial } from '../store/store.ts';
import { factorName, wholeSeconds, type Column } from './table.ts';

type TrialColumn = Column<StoredTrial>;

type ValueKey =
  | 'power_W'
  | 'voltage_V'
  | 'current_A'
  | 'windSpeed_mps'
  | 'rotorSpeed_radps'
  | 'powerCoefficient';

const VALUES: readonly { key: ValueKey; of: string; unit: string; what: string }[] = [
  { key: 'power_W', of: 'power', unit: 'W', what: 'electrical power in the load, mean over the trial' },
  { key: 'voltage_V', of: 'voltage', unit: 'V', what: 'voltage across the load, mean over the trial' },
  { key: 'current_A', of: 'current', unit: 'A', what: 'current through the load, mean over the trial' },
  { key: 'windSpeed_mps', of: 'windSpeed', unit: 'm/s', what: 'wind speed, mean over the trial' },
  { key: 'rotorSpeed_radps', of: 'rotorSpeed', unit: 'rad/s', what: 'rotor speed, mean over the trial' },
  { key: 'powerCoefficient', of: 'powerCoefficient', unit: '1', what: 'share of the power of the wind that became electrical power, by what was said of rotor and air' },
];

const UNKNOWN = 'Empty: not measured, or not known; never zero.';

function valueColumns({ key, of, unit, what }: (typeof VALUES)[number]): TrialColumn[] {
  return [
    { name: key, type: 'number', unit, description: `${capital(what)}. ${UNKNOWN}`, of: (trial) => trial[key]?.value ?? null },
    {
      name: `u_${key}`,
      type: 'number',
      unit,
      description: `Standard uncertainty of ${key} (JCGM 100:2008). ${UNKNOWN}`,
      of: (trial) => known(trial[key])?.standardUncertainty ?? null,
    },
    {
      name: `dof_${of}`,
      type: 'number',
      description: `Effective degrees of freedom of u_${key}. ${UNKNOWN}`,
      of: (trial) => known(trial[key])?.degreesOfFreedom ?? null,
    },
  ];
}

/** The value where its uncertainty is known; a table from elsewhere may not have told it. */
function known(value: StoredTrial[ValueKey]): StoredTrial[ValueKey] {
  return value === null || value.standardUncertainty !== null ? value : null;
}

/** How fast it turned, by whatever tells that. */
const SPEED: readonly TrialColumn[] = [
  ...speedColumns('rotorSpeed', 'turned_radps', 'rad/s', 'rotor speed, by whatever tells it (turned_by)'),
  { name: 'turned_by', type: 'string', description: 'What the rotor speed is known by: channel (the board read it), ripple (of the voltage), generator (its voltage, winding and constant). Empty: not known.', of: ({ speed }) => speed?.by ?? null },
  ...speedColumns('tipSpeedRatio', 'tipSpeedRatio', '1', 'speed of the tips of the blades over that of the wind'),
];

function speedColumns(
  of: 'rotorSpeed' | 'tipSpeedRatio',
  name: string,
  unit: string,
  what: string,
): TrialColumn[] {
  const value = ({ speed }: StoredTrial) => {
    return (of === 'rotorSpeed' ? speed?.rotorSpeed_radps : speed?.tipSpeedRatio) ?? null;
  };
  return [
    { name, type: 'number', unit, description: `${capital(what)}. ${UNKNOWN}`, of: (trial) => value(trial)?.value ?? null },
    { name: `u_${name}`, type: 'number', unit, description: `Standard uncertainty of ${name} (JCGM 100:2008). ${UNKNOWN}`, of: (trial) => value(trial)?.standardUncertainty ?? null },
  ];
}

const WHICH: readonly TrialColumn[] = [
  { name: 'trial', type: 'integer', description: 'Number of the trial in the session.', of: ({ id }) => id },
  { name: 'simulated', type: 'boolean', description: 'true: nothing was measured, a program made the readings up.', of: ({ simulated }) => simulated },
  { name: 'run', type: 'string', description: 'Run of the plan that the trial belongs to (plan.csv); empty: none.', of: ({ runId }) => runId },
  { name: 'round', type: 'integer', description: 'Round of the plan: a block in time that holds every level once.', of: ({ runId }) => parts(runId)?.round ?? null },
  { name: 'group', type: 'string', description: 'Group or rig that the run belongs to, where the plan has groups.', of: ({ runId }) => parts(runId)?.group ?? null },
];

const GUSTS: readonly TrialColumn[] = [
  { name: 'windCube_m3ps3', type: 'number', unit: 'm3/s3', description: `Mean of the cubes of the wind’s samples over the trial, as measured: what the wind’s power goes with. ${UNKNOWN}`, of: ({ windGusts }) => windGusts?.meanCube_m3ps3 ?? null },
  { name: 'windReadings_Hz', type: 'number', unit: 'Hz', description: 'How often a second the wind’s reading changed: below 5 the mean of cubes has gusts averaged away, and is not used.', of: ({ windGusts }) => windGusts?.readings_Hz ?? null },
];

const HOW: readonly TrialColumn[] = [
  { name: 'rotor_still', type: 'boolean', description: 'true: the rotor stood still in the wind. A result, not a missing one.', of: ({ rotorStill }) => rotorStill },
  { name: 'struck', type: 'boolean', description: 'true: set aside by a person; leave it out of an analysis.', of: ({ struck }) => struck },
  { name: 'strike_reason', type: 'string', description: 'Why it was set aside.', of: ({ strikeReason }) => strikeReason },
  { name: 'recorded', type: 'boolean', description: 'false: the settled stretch was cut before it was long enough to be logged.', of: ({ recorded }) => recorded },
  { name: 'state', type: 'string', description: 'logged: the stretch went on; final: it closed; interrupted: it was cut.', of: ({ state }) => state },
  { name: 'basis', type: 'string', description: 'What the means rest on: settled (a steady stretch), average, window, said, keyed (read from meters), imported.', of: ({ basis }) => basis },
  { name: 'origin', type: 'string', description: 'Where the readings come from: board, simulated, keyed, imported.', of: ({ origin }) => origin },
  ...CORRECTABLE.map((key): TrialColumn => ({
    name: `corrected_${key}`,
    type: 'string',
    description: `Put right afterwards: what was measured of ${key} was multiplied by the first number, then the second was added. Empty: it is as it was measured.`,
    of: ({ correction }) => {
      const line = correction?.by[key];
      return line === undefined ? null : `${line.gain} ${line.offset}`;
    },
  })),
  { name: 'note', type: 'string', description: 'What a person wrote about it.', of: ({ note }) => note },
  { name: 'recorded_at', type: 'datetime', description: 'When it was logged, by the clock of the computer, UTC. A label: no interval is computed from it.', of: ({ recordedAt }) => wholeSeconds(recordedAt) },
  { name: 'recording', type: 'integer', description: 'Recording that its times belong to.', of: ({ recordingId }) => recordingId },
  { name: 'start_s', type: 'number', unit: 's', description: 'Start of the interval that the means are taken over, on the time of the recording’s samples.', of: ({ start_s }) => start_s },
  { name: 'end_s', type: 'number', unit: 's', description: 'End of that interval.', of: ({ end_s }) => end_s },
  { name: 'declared_s', type: 'number', unit: 's', description: 'When the program first said settled.', of: ({ declared_s }) => declared_s },
  { name: 'sample_count', type: 'integer', description: 'Samples in the interval; they are no replicates.', of: ({ sampleCount }) => sampleCount },
  { name: 'revision', type: 'integer', description: 'How often the trial was committed.', of: ({ revision }) => revision },
  { name: 'checksum', type: 'string', description: 'CRC-32 (ISO/IEC 8802-3) of the stored trial, eight hexadecimal digits: the same wherever the session is carried.', of: ({ checksum }) => checksum },
];

/** With a column for each factor that any of the trials has a level of. */
export function trialColumns(trials: readonly StoredTrial[]): TrialColumn[] {
  const values = [...VALUES.flatMap(valueColumns), ...GUSTS, ...SPEED];
  const fixed = [...WHICH, ...values, ...HOW];
  const keys = [...new Set(trials.flatMap(({ factors }) => Object.keys(factors)))];
  const factors = keys.map((key): TrialColumn => {
    const levels = trials.flatMap(({ factors }) => factors[key] ?? []);
    const areNumbers = levels.every((level) => typeof level === 'number');
    return {
      name: factorName(key, fixed),
      type: areNumbers ? 'number' : 'string',
      description: 'Level of this factor; the unit is the end of its name.',
      of: (trial) => levelOf(trial.factors[key], areNumbers),
    };
  });
  return [...WHICH, ...factors, ...values, ...HOW];
}

function levelOf(level: string | number | undefined, areNumbers: boolean): string | number | null {
  if (level === undefined) return null;
  return areNumbers ? level : String(level);
}

function parts(runId: string | null): ReturnType<typeof partsOf> {
  return runId === null ? null : partsOf(runId);
}

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
