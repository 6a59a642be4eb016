/** `npm run bench`: throughput, memory over an hour, latency to the page, comparison, prediction. */
import { parseArgs } from 'node:util';
import { measureComparison } from './comparison.ts';
import { measureLatency } from './latency.ts';
import { measureMemory } from './memory.ts';
import { measurePrediction } from './prediction.ts';
import { measureThroughput } from './throughput.ts';

const SUITES = {
  throughput: measureThroughput,
  memory: measureMemory,
  latency: measureLatency,
  comparison: measureComparison,
  prediction: measurePrediction,
} as const;

const { positionals } = parseArgs({ allowPositionals: true });
const names = Object.keys(SUITES) as (keyof typeof SUITES)[];
const unknown = positionals.filter((name) => !names.includes(name as keyof typeof SUITES));
if (unknown.length > 0) {
  console.error(`There is no benchmark ${unknown.join(', ')}. There are: ${names.join(', ')}.`);
  process.exit(2);
}
for (const name of names) {
  if (positionals.length > 0 && !positionals.includes(name)) continue;
  console.log(`\n## ${name}\n`);
  await SUITES[name]();
}
