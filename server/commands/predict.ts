import { readFile } from 'node:fs/promises';
import { decimalAt, firstPlace } from '#core/metrology/format.ts';
import { powerText } from '#core/rotor/best-level.ts';
import { usualDraws } from '#core/rotor/doubt.ts';
import { predict as predictPower, type Prediction } from '#core/rotor/prediction.ts';
import type { PredictedAngle, PredictedPoint } from '#core/rotor/predicted-point.ts';
import { readRig, type ReadRig } from '#core/rotor/rig-file.ts';
import type { Variation } from '#core/rotor/variations.ts';
import { explainFileError } from '../sources/csv.ts';
import { aligned } from './aligned.ts';
import { readArguments } from './arguments.ts';
import { InputError } from './exit-errors.ts';

const USAGE = 'stillmark predict RIG.json [--json]';

/** `stillmark predict RIG.json`: what the rig should give at each blade angle, by a model. */
export async function predict(argv: readonly string[]): Promise<number> {
  const { values, positionals } = readArguments(argv, { json: { type: 'boolean' } }, 1);
  const [file] = positionals;
  if (file === undefined) throw new InputError('missing-file', `Name the file that describes the rig: ${USAGE}`);
  const question = await readQuestion(file);
  const prediction = predictPower({ ...question, draws: usualDraws() });
  console.log(values.json ? JSON.stringify(prediction, null, 2) : toText(prediction));
  return 0;
}

async function readQuestion(file: string): Promise<ReadRig> {
  const text = await readFile(file, 'utf8').catch((error: unknown) => {
    throw explainFileError(file, error);
  });
  const reading = readRig(parse(file, text));
  if ('faults' in reading) {
    throw new InputError('bad-rig', [`${file} does not describe a rig:`, ...reading.faults].join('\n  '));
  }
  return reading.rig;
}

function parse(file: string, text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new InputError('bad-rig', `${file} is not JSON: ${whatIsWrong(text, error as Error)} docs/rotor.md has a rig to begin with.`);
  }
}

/** What programs and people write for a number, and JSON has not. */
const NO_JSON_NUMBER = /"([^"]+)"\s*:\s*(-?(?:NaN|nan|Infinity|inf)\b|-?\d+,\d+)/;

/** The engine's own words, unless they would say nothing or show what no terminal should get. */
function whatIsWrong(text: string, { message }: Error): string {
  if (text.trim() === '') return 'it is empty.';
  if (/[\0\uFFFD]/.test(text)) return 'it is not plain text. Save it as UTF-8.';
  const [, field, value] = NO_JSON_NUMBER.exec(text) ?? [];
  if (value?.includes(',')) return `${field} is ${value}. With a decimal point: ${value.replace(',', '.')}.`;
  if (value !== undefined) return `${field} is ${value}; expected: a number.`;
  return `${message.replace(/\p{Cc}+/gu, ' ')}.`;
}

function toText(prediction: Prediction): string {
  const { airDensity_kgpm3, windPower_W, angles, best, variations, remarks, limits } = prediction;
  const head = ['angle', 'speed', 'tip speed ratio', 'of the wind', 'load power', '95 % of the draws'];
  return [
    `Air of ${decimalAt(airDensity_kgpm3, -3)} kg/m³; the wind carries ${powerText(windPower_W)} through the rotor.`,
    '',
    ...aligned([head, ...angles.map(rowOf)]),
    '',
    best.statement,
    ...angles.filter(({ angle_deg }) => angle_deg === best.angle_deg).slice(0, 1).map(whereItGoes),
    ...remarks,
    ...variations.flatMap(variationText),
    '',
    ...limits,
  ].join('\n');
}

function rowOf(angle: PredictedAngle): string[] {
  const { angle_deg, starts, rotorSpeed_radps, tipSpeedRatio, powerCoefficient } = angle;
  if (!starts) return [`${angle_deg}°`, 'does not start', '', '', '0', bandText(angle)];
  return [
    `${angle_deg}°`,
    `${twoDigits((rotorSpeed_radps * 30) / Math.PI)} rpm`,
    twoDigits(tipSpeedRatio),
    `${twoDigits(100 * powerCoefficient)} %`,
    loadText(angle),
    bandText(angle),
  ];
}

function variationText({ factor, angle_deg, levels, best }: Variation): string[] {
  const head = [factor, 'load power', '95 % of the draws'];
  const rows = levels.map((level) => [String(level.level), loadText(level), bandText(level)]);
  return ['', `With the blades at ${angle_deg}°:`, ...aligned([head, ...rows]), best.statement];
}

function loadText({ starts, loadPower_W }: PredictedPoint): string {
  return starts ? powerText(loadPower_W) : 'does not start';
}

function bandText({ loadPowerLow_W, loadPowerHigh_W }: PredictedPoint): string {
  return `${powerText(loadPowerLow_W)} to ${powerText(loadPowerHigh_W)}`;
}

function whereItGoes({ angle_deg, powerFlow }: PredictedAngle): string {
  const { wind_W, rotor_W, friction_W, winding_W, load_W } = powerFlow;
  return `Where it goes at ${angle_deg}°: of ${powerText(wind_W)} in the wind the rotor takes ${powerText(rotor_W)}; ${powerText(friction_W)} of it warms the bearings, ${powerText(winding_W)} the winding, ${powerText(load_W)} reaches the load.`;
}

function twoDigits(value: number): string {
  return value === 0 ? '0' : decimalAt(value, firstPlace(value) - 1);
}
