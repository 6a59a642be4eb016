import { startApp } from '../app.ts';
import { planOfFile } from '../carry/plan-of-file.ts';
import { readHost, readPort } from '../listen.ts';
import { stageSource } from '../staged-source.ts';
import { readSourceChoice } from '../source-choice.ts';
import { defaultDataFolder } from '../store/data-folder.ts';
import { readArguments, readNumber } from './arguments.ts';

const OPTIONS = {
  port: { type: 'string' },
  host: { type: 'string' },
  lan: { type: 'boolean' },
  data: { type: 'string' },
  source: { type: 'string' },
  speed: { type: 'string' },
  plan: { type: 'string' },
} as const;

const AUTOMATIC = { kind: 'automatic' } as const;

/** `stillmark serve`: the main job. Resolves when it has been asked to stop and everything is saved. */
export async function serve(argv: readonly string[]): Promise<number> {
  const { values } = readArguments(argv, OPTIONS, 0);
  const speed = readNumber('speed', values.speed ?? '1', { low: 0.01, high: 1000, whole: false });
  const options = {
    port: readPort(values.port),
    ...readHost(values.host, values.lan ?? false),
    dataFolder: values.data ?? defaultDataFolder(),
    speed,
  };
  const plan = values.plan === undefined ? null : planOfFile(values.plan);
  const named = values.source === undefined ? AUTOMATIC : readSourceChoice(values.source);
  const { source, remove } = stageSource(named, speed);
  try {
    const app = await startApp({ ...options, source });
    console.log(`Stillmark ready: ${app.url}`);
    const leftOut = plan === null ? null : await app.beginWith(plan);
    if (leftOut !== null) console.error(`stillmark: ${leftOut}`);
    await askedToStop();
    await app.close();
  } finally {
    remove();
  }
  return 0;
}

function askedToStop(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });
}
