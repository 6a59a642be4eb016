import { compare } from '#core/experiment/comparison/compare.ts';
import type { ComparisonInput } from '#core/experiment/comparison/comparison-schema.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

const TRIALS = 200;
const LEVELS = 8;
const ROUNDS = 20;

/** Processor time of the whole answer for 200 trials, beside the means of the levels alone. */
export function measureComparison(): void {
  const trials = trialsOf(7);
  const ways = {
    'comparison, in blocks': () => compare({ ...QUESTION, trials }).levels.length,
    'comparison, no blocks': () => compare({ ...QUESTION, trials: trials.map(withoutBlock) }).levels.length,
    'naive: mean and deviation of each level': () => naive(trials),
  };
  const best = new Map<string, number>();
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const [name, way] of Object.entries(ways)) {
      const before = process.cpuUsage();
      if (way() !== LEVELS) throw new Error(`${name}: not ${LEVELS} levels`);
      const { user, system } = process.cpuUsage(before);
      best.set(name, Math.min(best.get(name) ?? Infinity, (user + system) / 1000));
    }
  }
  console.log(`${TRIALS} trials at ${LEVELS} levels, processor time, best of ${ROUNDS}:`);
  for (const [name, time_ms] of best) console.log(`  ${name}: ${time_ms.toFixed(2)} ms`);
  const [whole = NaN, , naiveTime = NaN] = [...best.values()];
  console.log(`  ratio to the naive baseline, which judges nothing: ${(whole / naiveTime).toFixed(0)}`);
}

type Trials = ComparisonInput['trials'];
const QUESTION = { factor: 'angle_deg', response: 'power_W', looks: 'often' } as const;

function trialsOf(seed: number): Trials {
  const random = createRandom(seed);
  return Array.from({ length: TRIALS }, (_, i) => {
    const level = (i % LEVELS) * 10;
    const response = 0.3 - ((level - 30) / 80) ** 2 + 0.02 * normal(random);
    const block = Math.floor(i / LEVELS);
    return { level, response, didNotTurn: false, block, order: i, second: null, standardUncertainty: null };
  });
}

function withoutBlock(trial: Trials[number]): Trials[number] {
  return { ...trial, block: null };
}

/** The least that a program could do. */
function naive(trials: Trials): number {
  const levels = new Map<unknown, number[]>();
  for (const { level, response } of trials) levels.set(level, [...(levels.get(level) ?? []), response]);
  for (const values of levels.values()) {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    if (!(Math.sqrt(squares / (values.length - 1)) > 0)) throw new Error('no scatter');
  }
  return levels.size;
}
