/** A page that watches the server's live samples. */
import { WebSocket } from 'ws';
import { LiveMessageSchema } from '#core/live-messages.ts';
import { until } from '../../support/server-process.ts';
import { PATIENCE_S } from './board.ts';

type Reading = number | null;

export interface Page {
  /** Every reading that was shown so far; null: missing. */
  readonly voltage_V: readonly Reading[];
  readonly current_A: readonly Reading[];
  /** Resolves once the newest current is there and satisfies this. */
  untilCurrent(isWanted: (current_A: number) => boolean): Promise<void>;
  close(): void;
}

export async function openPage(url: string): Promise<Page> {
  const { host, origin } = new URL(url);
  const socket = new WebSocket(`ws://${host}/live`, { origin });
  const voltage_V: Reading[] = [];
  const current_A: Reading[] = [];
  socket.on('message', (data) => {
    const message = LiveMessageSchema.parse(JSON.parse(String(data)));
    if (message.type !== 'samples') return;
    voltage_V.push(...message.samples.voltage_V);
    current_A.push(...message.samples.current_A);
  });
  let closedWith: number | null = null;
  socket.on('close', (code) => (closedWith = code));
  await new Promise((resolve, reject) => socket.once('open', resolve).once('error', reject));
  const newest = async (): Promise<Reading> => {
    if (closedWith !== null) throw new Error(`the server closed the page (code ${closedWith})`);
    return current_A.at(-1) ?? null;
  };
  return {
    voltage_V,
    current_A,
    async untilCurrent(isWanted) {
      await until(newest, (reading) => reading !== null && isWanted(reading), PATIENCE_S);
    },
    close: () => socket.close(),
  };
}
