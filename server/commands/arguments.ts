import { parseArgs, type ParseArgsConfig } from 'node:util';
import { InputError } from './exit-errors.ts';

type Options = NonNullable<ParseArgsConfig['options']>;

/**
 * Reads a command's options strictly.
 * @throws InputError naming the option that is unknown or lacks its value
 */
export function readArguments<T extends Options>(
  argv: readonly string[],
  options: T,
  positionals: number,
) {
  const result = parse(argv, options);
  const tooMany = result.positionals[positionals];
  if (tooMany !== undefined) {
    throw new InputError('unexpected-argument', `"${tooMany}" is one argument too many. See stillmark help.`);
  }
  for (const [name, value] of Object.entries(result.values)) {
    if (value === '') throw new InputError('bad-value', `--${name} is followed by nothing. See stillmark help.`);
  }
  return result;
}

function parse<T extends Options>(argv: readonly string[], options: T) {
  try {
    return parseArgs({ args: withNegatives(argv), options, allowPositionals: true, strict: true });
  } catch (error) {
    const known = Object.keys(options).map((name) => `--${name}`);
    const first = (error as Error).message.split(/\.\s/)[0];
    throw new InputError('unknown-option', `${first}. Known here: ${known.join(', ')}. See stillmark help.`);
  }
}

/** `--temperature -5` as `--temperature=-5`: a minus sign with a digit behind it is no option. */
function withNegatives(argv: readonly string[]): string[] {
  const args: string[] = [];
  for (const one of argv) {
    const option = args.at(-1);
    if (option?.startsWith('--') && /^-[0-9.]/.test(one)) args[args.length - 1] = `${option}=${one}`;
    else args.push(one);
  }
  return args;
}

interface NumberWanted {
  readonly low: number;
  readonly high: number;
  readonly whole: boolean;
  /** How it is asked for; else as a number or a whole number. */
  readonly what?: string;
}

/** @throws InputError when the text is not a number within the limits */
export function readNumber(option: string, text: string, wanted: NumberWanted): number {
  const { low, high, whole } = wanted;
  const value = /^-?[0-9.]+$/.test(text) ? Number(text) : NaN;
  if (!(value >= low && value <= high) || (whole && !Number.isInteger(value))) {
    const kind = wanted.what ?? (whole ? 'a whole number' : 'a number');
    throw new InputError('bad-value', `--${option} takes ${kind} from ${low} to ${high}, not "${text}".`);
  }
  return value;
}
