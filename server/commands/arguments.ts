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
    if (value === '') throw followedByNothing(`--${name}`);
  }
  if (result.positionals.includes('')) {
    throw new InputError('unexpected-argument', 'An argument is empty: leave it out, or name the file. See stillmark help.');
  }
  return result;
}

function followedByNothing(option: string): InputError {
  return new InputError('bad-value', `${option} is followed by nothing. See stillmark help.`);
}

function parse<T extends Options>(argv: readonly string[], options: T) {
  try {
    const args = withNegatives(argv);
    const read = parseArgs({ args, options, allowPositionals: true, strict: true, tokens: true });
    const names = read.tokens.flatMap((token) => (token.kind === 'option' ? [token.name] : []));
    const twice = names.find((name, place) => names.indexOf(name) < place);
    if (twice === undefined) return read;
    throw new InputError('bad-value', `--${twice} is given twice. Give it once. See stillmark help.`);
  } catch (error) {
    if (error instanceof InputError) throw error;
    const known = Object.keys(options).map((name) => `--${name}`);
    const first = (error as Error).message.split(/\.\s/)[0] ?? '';
    const lacking = /^Option '(?:-\w, )?(--[^ ']+).*argument (?:missing|is ambiguous)/.exec(first)?.[1];
    if (lacking !== undefined) throw followedByNothing(lacking);
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
  const value = /^[-+]?[0-9.]+(e[-+]?\d+)?$/i.test(text) ? Number(text) : NaN;
  if (!(value >= low && value <= high) || (whole && !Number.isInteger(value))) {
    const kind = wanted.what ?? (whole ? 'a whole number' : 'a number');
    const meant = /^-?\d+,\d+$/.test(text) ? ` With a decimal point: ${text.replace(',', '.')}.` : '';
    throw new InputError('bad-value', `--${option} takes ${kind} from ${low} to ${high}, not "${text}".${meant}`);
  }
  return value;
}
