/** `npm run bench:settling`: the settling detector beside published methods, on many recordings. */
import { performance } from 'node:perf_hooks';
import { BASELINES } from './baselines/methods.ts';
import { detectorMethod } from './detector-method.ts';
import { exactMethod } from './exact-method.ts';
import { hindsightMethod } from './hindsight-method.ts';
import { knownNoiseMethod } from './known-noise-method.ts';
import type { Method } from './method.ts';
import { parseOptions, recordingsOf, USAGE, type Options } from './options.ts';
import type { Recording } from './recording.ts';
import { figuresByMethod, summary, tables, type Cell } from './report.ts';
import { scoreRecording, type Score } from './score.ts';

function run(options: Options): Cell[] {
  const methods = [
    detectorMethod,
    exactMethod,
    ...(options.limits ? [knownNoiseMethod, hindsightMethod] : []),
    ...(options.baselines ? BASELINES : []),
  ];
  const cells: Cell[] = [];
  for (const recording of recordingsOf(options)) {
    for (const method of methods) {
      cells.push({
        method: method.name,
        kind: recording.kind,
        rate: `${recording.rate_Hz} Hz`,
        score: tryMethod(method, recording),
      });
    }
  }
  return cells;
}

function tryMethod(method: Method, recording: Recording): Score {
  const before = process.cpuUsage();
  const findings = method.find(recording);
  // Processor time: other programs on the machine do not count.
  const { user, system } = process.cpuUsage(before);
  return scoreRecording(recording, findings, (user + system) / 1e6);
}

function main(): number {
  let options: Options;
  try {
    options = parseOptions(process.argv.slice(2));
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : String(error)}\n\n${USAGE}`);
    return 2;
  }
  const started_ms = performance.now();
  const cells = run(options);
  const took_s = (performance.now() - started_ms) / 1000;
  if (options.json) {
    console.log(JSON.stringify(figuresByMethod(cells), null, 1));
    return 0;
  }
  const seeds = `seeds ${options.seeds[0]} to ${options.seeds.at(-1)}`;
  console.log(tables(cells));
  console.log(
    `\nGenerator "${options.makerName}", ${seeds}: ${summary(cells)}; took ${took_s.toFixed(0)} s.`,
  );
  return 0;
}

process.exitCode = main();
