import { decimalAt, firstPlace, NO_VALUE, writeMeasured } from '#core/metrology/format.ts';
import type { Fitted } from '#core/rotor/fitting/fitted.ts';
import {
  concludeGenerator,
  GeneratorReadingsSchema,
  SPEEDS,
  type GeneratorGap,
  type GeneratorReadings,
} from '#core/rotor/fitting/generator-readings.ts';
import { concludeLamp, LampReadingsSchema, type LampGap } from '#core/rotor/fitting/lamp-readings.ts';
import { figuresOf, NO_FITS, type RigFigures } from '#core/rotor/fitting/rig-fits.ts';
import { readArguments } from './arguments.ts';
import { InputError } from './exit-errors.ts';
import { badRow, readReadings, type ReadingRow } from './fit-table.ts';

const USAGE = 'stillmark fit FILE.csv --part generator|lamp [--speed held|free] [--json]';

/** `stillmark fit FILE.csv`: what readings of a generator or a lamp say of it, for RIG.json. */
export async function fit(argv: readonly string[]): Promise<number> {
  const text = { type: 'string' } as const;
  const options = { part: text, speed: text, json: { type: 'boolean' } } as const;
  const { values, positionals } = readArguments(argv, options, 1);
  const [file] = positionals;
  if (file === undefined) throw new InputError('missing-file', `Name the table of readings: ${USAGE}`);
  const { part, speed } = values;
  if (part !== 'generator' && part !== 'lamp') {
    throw new InputError('bad-value', `--part says what was read, generator or lamp: ${USAGE}`);
  }
  const rows = await readReadings(file);
  const found = part === 'lamp' ? fitLamp(file, rows) : fitGenerator(file, rows, speed);
  console.log(values.json ? JSON.stringify(found.object, null, 2) : found.text);
  return 0;
}

interface Found {
  readonly object: object;
  readonly text: string;
}

const GAPS: Readonly<Record<GeneratorGap | LampGap, string>> = {
  'two currents': 'Two readings with different loads are the least.',
  'two voltages': 'Two readings at different voltages are the least.',
  'a speed': 'No reading has a speed above 0.',
  'same speed':
    'These do not fit one generator: more current and yet more volts. Check speeds and numbers.',
  'speed for the constant': "Its constant can't be told without the rotor's speed.",
  'speed for the winding':
    "The winding's resistance can't be told without the speed, read or held (--speed held).",
  'a load': "The winding's resistance can't be told without a load.",
  'one more': 'One reading more would show how sure this is.',
  'wider apart': 'This is not sure yet: readings further apart, or more of them, would help.',
  'no filament': 'This is not a lamp with a filament: its current does not follow the voltage so.',
};

function fitGenerator(
  file: string,
  rows: readonly ReadingRow[],
  speed: string | undefined,
): Found {
  const hasSpeeds = rows.some(({ rotorSpeed_radps }) => rotorSpeed_radps !== null);
  if (speed !== undefined && speed !== 'held' && speed !== 'free') {
    throw new InputError('bad-value', `--speed takes held or free, not "${speed}"; a speed that was read has its column, rotorSpeed_rpm.`);
  }
  const given = SPEEDS.find((one) => one === (speed ?? (hasSpeeds ? 'read' : undefined)));
  if (given === undefined || (given === 'read' && !hasSpeeds)) {
    throw new InputError('bad-value', `${file} has no column with the rotor's speed (rotorSpeed_rpm): say --speed held where it was held the same, --speed free where it fell with the load.`);
  }
  const readings: GeneratorReadings = {
    speed: given,
    steps: rows.flatMap(({ line, ...step }) => {
      if (given === 'read' && step.rotorSpeed_radps === null) {
        throw badRow(file, line, 'the speed is missing');
      }
      // Spun without a load there may be no column for the current.
      return [{ ...step, current_A: step.current_A ?? 0 }];
    }),
  };
  const sound = checked(file, readings, GeneratorReadingsSchema);
  const { residuals_V, ...found } = concludeGenerator(sound);
  const { emfConstant_Vsprad, resistance_Ohm, resistanceAtMost_Ohm } = found;
  if (residuals_V.length === 0) throw nothing(file, found.gaps);
  const figures = figuresOf({ ...NO_FITS, generator: readings });
  const off = offText(residuals_V.map((one) => 1000 * one), 'mV', found.gaps);
  return {
    object: { part: 'generator', readings: readings.steps.length, ...found, residuals_V, rig: rigOf(figures) },
    text: [
      `The generator, by ${counted(readings.steps.length)}${off}:`,
      emfConstant_Vsprad && `  constant ${written(emfConstant_Vsprad, 'V·s/rad')}`,
      resistance_Ohm && `  winding ${written(resistance_Ohm, 'Ω')}`,
      resistanceAtMost_Ohm && `  winding at most ${three(resistanceAtMost_Ohm)} Ω: the speed fell with the load, and that is in it`,
      ...found.gaps.map((gap) => GAPS[gap]),
      ...rigText(figures),
    ].filter((line) => typeof line === 'string').join('\n'),
  };
}

function fitLamp(file: string, rows: readonly ReadingRow[]): Found {
  const steps = rows.map(({ line, voltage_V, current_A }) => {
    if (current_A === null) throw badRow(file, line, 'the current is missing');
    return { voltage_V, current_A };
  });
  const readings = checked(file, { steps }, LampReadingsSchema);
  const { fit: lamp, isResistor, residuals, gaps } = concludeLamp(readings);
  if (lamp === null) throw nothing(file, gaps);
  const { currentExponent, leftOut } = lamp;
  const figures = figuresOf({ ...NO_FITS, lamp: readings });
  const off = offText(residuals.map((one) => 100 * (one ?? 0)), '%', gaps);
  return {
    object: { part: 'lamp', readings: steps.length, leftOut, currentExponent, isResistor, gaps, residuals, rig: rigOf(figures) },
    text: [
      `The lamp, by ${counted(steps.length - leftOut)}${off}:`,
      `  current goes with the voltage to the power of ${written(currentExponent, '')}`,
      isResistor && '  that is a plain resistor',
      leftOut > 0 && `  ${leftOut} left out: too cold, below a tenth of the highest voltage`,
      ...gaps.map((gap) => GAPS[gap]),
      ...rigText(figures),
    ].filter((line) => typeof line === 'string').join('\n'),
  };
}

function counted(readings: number): string {
  return readings === 1 ? '1 reading' : `${readings} readings`;
}

/** As a rig's file has them (`stillmark predict`). */
function rigOf(figures: RigFigures): Record<string, object> {
  const { emfConstant_Vsprad, windingResistance_Ohm, load } = figures;
  const generator = {
    ...(emfConstant_Vsprad && { k_Vsprad: emfConstant_Vsprad.value }),
    ...(windingResistance_Ohm && { resistance_Ohm: windingResistance_Ohm.value }),
  };
  const uncertainty = {
    ...(emfConstant_Vsprad && { emfConstant: asShare(emfConstant_Vsprad.u) }),
    ...(windingResistance_Ohm && { windingResistance: asShare(windingResistance_Ohm.u) }),
    ...(load && { load: asShare(load.u) }),
  };
  return {
    ...(Object.keys(generator).length > 0 && { generator }),
    ...(load && { load: load.value }),
    ...(Object.keys(uncertainty).length > 0 && { uncertainty }),
  };
}

/** The most that a rig's file takes. */
const WIDEST = 0.5;

function asShare(u: number): number {
  return Number(Math.min(u, WIDEST).toPrecision(3));
}

function rigText(figures: RigFigures): string[] {
  const parts = Object.entries(rigOf(figures)).map(([name, value]) => {
    const short = (_: string, one: unknown) => {
      return typeof one === 'number' ? Number(one.toPrecision(5)) : one;
    };
    return `  ${JSON.stringify(name)}: ${JSON.stringify(value, short)}`;
  });
  return parts.length === 0 ? [] : ['', 'For RIG.json:', parts.join(',\n')];
}

/** Where there is nothing to spare the line goes through every reading. */
function offText(residuals: readonly number[], unit: string, gaps: readonly string[]): string {
  if (gaps.includes('one more')) return '';
  const most = Math.max(...residuals.map(Math.abs));
  return `, which lie at most ${three(most)} ${unit} off the line`;
}

function written(fitted: Fitted, unit: string): string {
  const { value, uncertainty } = writeMeasured(fitted, { unit, prefix: { symbol: '', exponent: 0 } });
  const spread = uncertainty === NO_VALUE ? '' : ` ± ${uncertainty}`;
  return `${value}${spread} ${unit}`.trimEnd();
}

function three(value: number): string {
  return value === 0 ? '0' : decimalAt(value, firstPlace(value) - 2);
}

function checked<T>(
  file: string,
  readings: T,
  schema: { safeParse(data: unknown): { readonly success: boolean } },
): T {
  if (schema.safeParse(readings).success) return readings;
  throw new InputError('bad-value', `${file} has too many rows to be readings of a bench.`);
}

function nothing(file: string, gaps: readonly (GeneratorGap | LampGap)[]): InputError {
  return new InputError('no-fit', `${file} tells nothing: ${gaps.map((gap) => GAPS[gap]).join(' ')}`);
}
