/** The benchmark's command line. */
import { parseArgs } from 'node:util';
import type { RecordingMaker, Recording } from './recording.ts';
import { calibratedRecordings } from './calibrated-generator.ts';
import { plantRecordings } from './plant-generator.ts';
import { secondRecordings } from './second-generator.ts';

export interface Options {
  readonly makerName: string;
  readonly maker: RecordingMaker;
  readonly kinds: readonly string[];
  readonly rates_Hz: readonly number[];
  readonly seeds: readonly number[];
  readonly json: boolean;
  readonly baselines: boolean;
  readonly limits: boolean;
}

export const USAGE = `npm run bench:settling -- [options]
  --seeds dev | report | N   development seeds (default), report seeds, or fresh ones (N from 3)
  --count N                  seeds for each kind and rate (default 3; --fast 1)
  --generator NAME           plant (the physical plant, default), second (plain signals), or
                             calibrated to published methods: gusty, added, apart, alone
  --kinds a,b                some kinds only
  --rates 10,50              some sample rates only, Hz (default 5,10,50,200,1000; --fast 10,50)
  --no-baselines             the detector and the exact intervals only
  --limits                   also what more knowledge would give: the noise, and hindsight
  --fast                     a small run for development
  --json                     every figure as JSON`;

const MAKERS: Readonly<Record<string, RecordingMaker>> = {
  plant: plantRecordings,
  second: secondRecordings,
  ...calibratedRecordings,
};
/** Fresh seeds from N begin at 1000 N, so these two are N = 1 and N = 2. */
const FIRST_SEEDS: Readonly<Record<string, number>> = { dev: 1000, report: 2000 };

/** Throws an Error with a message for the person who typed it. */
export function parseOptions(argv: readonly string[]): Options {
  const { values } = parseArgs({
    args: [...argv],
    options: {
      seeds: { type: 'string', default: 'dev' },
      count: { type: 'string' },
      generator: { type: 'string', default: 'plant' },
      kinds: { type: 'string' },
      rates: { type: 'string' },
      'no-baselines': { type: 'boolean', default: false },
      limits: { type: 'boolean', default: false },
      fast: { type: 'boolean', default: false },
      json: { type: 'boolean', default: false },
    },
  });
  const maker = MAKERS[values.generator];
  if (!maker) throw new Error(`--generator: one of ${Object.keys(MAKERS).join(', ')}`);
  const count = wholeNumber('count', values.count ?? (values.fast ? '1' : '3'));
  const first = FIRST_SEEDS[values.seeds] ?? wholeNumber('seeds', values.seeds) * 1_000;
  return {
    makerName: values.generator,
    maker,
    kinds: values.kinds ? knownKinds(values.kinds.split(','), maker) : maker.kinds,
    rates_Hz: (values.rates ?? (values.fast ? '10,50' : '5,10,50,200,1000'))
      .split(',')
      .map((rate) => wholeNumber('rates', rate)),
    seeds: Array.from({ length: count }, (_, i) => first + i),
    json: values.json,
    baselines: !values['no-baselines'],
    limits: values.limits,
  };
}

function knownKinds(kinds: readonly string[], maker: RecordingMaker): readonly string[] {
  const unknown = kinds.filter((kind) => !maker.kinds.includes(kind));
  if (unknown.length === 0) return kinds;
  throw new Error(`--kinds: no "${unknown.join(', ')}"; there are ${maker.kinds.join(', ')}`);
}

function wholeNumber(option: string, text: string): number {
  const value = Number(text);
  if (Number.isSafeInteger(value) && value > 0) return value;
  throw new Error(`--${option}: a whole number above zero, not "${text}"`);
}

/** The recordings asked for, one after the other. Each has a seed of its own, whatever runs. */
export function* recordingsOf(options: Options): Generator<Recording> {
  const { maker, kinds, rates_Hz, seeds } = options;
  for (const kind of kinds) {
    for (const rate_Hz of rates_Hz) {
      for (const seed of seeds) {
        const own = (seed * 100 + maker.kinds.indexOf(kind)) * 10_000 + rate_Hz;
        yield maker.record(kind, rate_Hz, own);
      }
    }
  }
}
