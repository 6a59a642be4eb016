import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { ensureBuild } from '../../server/setup.mjs';
import { launch } from '../browser/support/browser.ts';
import { needsChromium, needsSocat } from '../support/needs.ts';
import { createPtyBoard } from '../support/pty-board.ts';
import { startServer } from '../support/server-process.ts';

const RATE_HZ = 50;
const WARM_UP = 150;
const COUNTED = 1500;
/** Each line carries a voltage of its own, by which it is known again on the page. */
const STEP_V = 0.0001;

declare global {
  interface Window {
    /** Voltage and epoch time in ms of every sample, after the frame that drew it. */
    seen: [number, number][];
  }
}

/** From a line written to the pseudo-terminal to the end of the page's frame that draws its value. */
export async function measureLatency(): Promise<void> {
  const { path: chromium } = needsChromium();
  if (chromium === null || needsSocat().path === null) {
    console.log('left out: this needs chromium and socat');
    return;
  }
  await ensureBuild();
  const dataFolder = mkdtempSync(join(tmpdir(), 'stillmark-bench-'));
  const board = await createPtyBoard();
  const server = await startServer('--data', dataFolder, '--source', `serial:${board.path}`);
  const browser = await launch(chromium);
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
    await page.addInitScript(watchSocket);
    await page.goto(server.url);
    await wait(1000);
    await board.send('voltage_V,current_mA,wind_mps\n');
    const sentAt_ms: number[] = [];
    const started_ms = now_ms();
    for (let index = 0; index < WARM_UP + COUNTED; index += 1) {
      const early_ms = started_ms + (index * 1000) / RATE_HZ - now_ms();
      if (early_ms > 0) await wait(early_ms);
      sentAt_ms.push(now_ms());
      await board.send(`${(1 + index * STEP_V).toFixed(4)},100,4\n`);
    }
    await wait(1000);
    const seen = await page.evaluate(() => window.seen);
    report(sentAt_ms, seen);
  } finally {
    await browser.close();
    await server.stop();
    await board.discard();
    rmSync(dataFolder, { recursive: true, force: true });
  }
}

/** Runs in the page, before its own scripts: notes when the frame after a message has been drawn. */
function watchSocket(): void {
  window.seen = [];
  const Native = window.WebSocket;
  window.WebSocket = class extends Native {
    constructor(url: string | URL, protocols?: string | string[]) {
      super(url, protocols);
      this.addEventListener('message', (event) => {
        const message = JSON.parse(String(event.data)) as { type: string; samples?: { voltage_V: number[] } };
        if (message.type !== 'samples') return;
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => {
            const at_ms = performance.timeOrigin + performance.now();
            for (const voltage_V of message.samples?.voltage_V ?? []) window.seen.push([voltage_V, at_ms]);
          };
          port2.postMessage(null);
        });
      });
    }
  };
}

function report(sentAt_ms: readonly number[], seen: readonly [number, number][]): void {
  const seenAt_ms = new Map(seen.map(([voltage_V, at_ms]) => [Math.round((voltage_V - 1) / STEP_V), at_ms]));
  const latencies_ms: number[] = [];
  let missing = 0;
  for (let index = WARM_UP; index < sentAt_ms.length; index += 1) {
    const at_ms = seenAt_ms.get(index);
    if (at_ms === undefined) missing += 1;
    else latencies_ms.push(at_ms - (sentAt_ms[index] ?? NaN));
  }
  latencies_ms.sort((a, b) => a - b);
  const quantile = (share: number): string =>
    (latencies_ms[Math.min(latencies_ms.length - 1, Math.floor(share * latencies_ms.length))] ?? NaN).toFixed(1);
  console.log(`line written to the port → drawn on the page, ${latencies_ms.length} lines at ${RATE_HZ} a second:`);
  console.log(`  median ${quantile(0.5)} ms, 99 % ${quantile(0.99)} ms, longest ${quantile(1)} ms, never shown ${missing}`);
}

function now_ms(): number {
  return performance.timeOrigin + performance.now();
}
