/** A killed server loses nothing that it had acknowledged, and starts again from where it was. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { LiveMessageSchema } from '#core/live-messages.ts';
import { createRandom, between } from '#core/virtual-rig/random.ts';
import { openStoreReader } from '../../../server/store/reader.ts';
import { runCommand, startServer, type ServerProcess } from '../../support/server-process.ts';

const ROUNDS = 20;
const SEED = 11;

describe('kill -9 while trials are acknowledged', () => {
  let dataFolder = '';
  beforeAll(() => {
    dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-kill-'));
  });
  afterAll(() => rmSync(dataFolder, { recursive: true, force: true }));

  it(
    `keeps every acknowledged revision over ${ROUNDS} rounds, and replays them identically`,
    async () => {
      const random = createRandom(SEED);
      const acknowledged = new Set<string>();
      for (let round = 0; round < ROUNDS; round += 1) {
        const server = await startServer('--data', dataFolder, '--source', 'simulated:5', '--speed', '60');
        const told = listen(server, acknowledged);
        await told.atLeast(1 + Math.floor(between(random, 0, 3)));
        await new Promise((resume) => setTimeout(resume, between(random, 0, 150)));
        await server.kill();
      }
      const reader = openStoreReader(dataFolder);
      const stored = new Set<string>();
      for (const { id } of reader.sessions()) {
        for (const recording of reader.recordings(id)) {
          for (const trial of reader.trialRevisions(recording.id)) stored.add(keyOf(trial));
        }
      }
      expect(reader.problems()).toEqual([]);
      reader.close();
      expect(acknowledged.size).toBeGreaterThanOrEqual(ROUNDS);
      expect([...acknowledged].filter((key) => !stored.has(key))).toEqual([]);

      const replayed = await runCommand('replay', '--data', dataFolder, '--json');
      expect(replayed.code, replayed.stdout).toBe(0);
      const { sessions } = JSON.parse(replayed.stdout) as { sessions: { recordings: number; stored: number }[] };
      expect(sessions).toMatchObject([{ recordings: ROUNDS, stored: stored.size }]);
    },
    240_000,
  );
});

function keyOf({ id, revision }: { id: number; revision: number }): string {
  return `${id}/${revision}`;
}

/** Collects what the live feed says is logged. */
function listen(server: ServerProcess, acknowledged: Set<string>): { atLeast(count: number): Promise<void> } {
  let count = 0;
  let wake = (): void => undefined;
  const socket = new WebSocket(new URL('/live', server.url).href.replace('http', 'ws'));
  socket.on('message', (data: Buffer) => {
    const message = LiveMessageSchema.parse(JSON.parse(data.toString()));
    if (message.type !== 'trial') return;
    acknowledged.add(keyOf(message.trial));
    count += 1;
    wake();
  });
  socket.on('error', () => undefined);
  return {
    atLeast: async (wanted) => {
      while (count < wanted) await new Promise<void>((resume) => (wake = resume));
    },
  };
}
