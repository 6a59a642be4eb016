/** A test's own bench: an emulated board with a sketch, and the real server that has opened its port. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestContext } from 'vitest';
import type { BoardRequest, TrialView } from '#core/live-messages.ts';
import { startServer, until, type ServerProcess } from '../../support/server-process.ts';
import { sketch, type Variant } from '../support/make.ts';
import { PATIENCE_S, startBoard, type EmulatedBoard } from './board.ts';
import { openPage, type Page } from './page.ts';
import { NO_DEVIATIONS, wire, type Deviations } from './wiring.ts';

export interface Stand {
  readonly board: EmulatedBoard;
  readonly server: ServerProcess;
  readonly dataFolder: string;
  readonly page: Page;
  /** What the operator wants of the board, as the page says it. @throws when it is refused */
  want(request: BoardRequest): Promise<void>;
  /** Resolves once there are so many trials, the newest of them in one of these states. */
  untilTrial(count: number, ...states: TrialView['state'][]): Promise<TrialView[]>;
}

export interface StandOptions {
  readonly sketch: 'adc-board' | 'monitor-board';
  readonly variant?: Variant;
  readonly deviations?: Deviations;
}

/** Ready when samples arrive; everything is put away when the test has finished. */
export async function openStand(test: TestContext, options: StandOptions): Promise<Stand> {
  const board = await startBoard(await sketch(options.sketch, options.variant));
  board.do(...wire(options.deviations ?? NO_DEVIATIONS));
  const dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-firmware-'));
  const server = await startServer('--data', dataFolder, '--source', `serial:${board.path}`);
  const page = await openPage(server.url);
  test.onTestFinished(async () => {
    page.close();
    await server.kill();
    await board.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  });
  await until(server.status, ({ sampleRate_Hz }) => sampleRate_Hz !== null, PATIENCE_S);
  return {
    board,
    server,
    dataFolder,
    page,
    async want(request) {
      const headers = { 'content-type': 'application/json' };
      const body = JSON.stringify(request);
      const answer = await fetch(new URL('/api/board', server.url), { method: 'POST', headers, body });
      if (!answer.ok) throw new Error(await answer.text());
    },
    async untilTrial(count, ...states) {
      const wanted = (trials: TrialView[]): boolean => {
        const newest = trials[count - 1];
        return newest !== undefined && states.includes(newest.state);
      };
      return until(server.trials, wanted, PATIENCE_S);
    },
  };
}
