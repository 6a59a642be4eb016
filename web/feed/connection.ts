/**
 * The live feed: connects, checks every message, and comes back by itself after sleep, a closed
 * lid or a restarted server. Needs nothing that only a secure page has.
 */
import { LiveMessageSchema, type LiveMessage, type PageMessage } from '#core/live-messages.ts';
import { waitBeforeTry_ms } from './back-off.ts';

/** Without a message for this long the page says so. */
export const STALE_AFTER_MS = 3000;
/** Quiet for this long: ask, so that a quiet bench is told from a dead connection. */
const ASK_AFTER_MS = 1500;
const WATCH_EVERY_MS = 250;

export interface FeedListener {
  message(message: LiveMessage): void;
  /** A message did not fit its schema: page and program are of different versions. */
  unreadable(problem: string): void;
  /** Called a few times a second with the time since the last message. */
  quiet(quiet_ms: number): void;
}

/** Connects to the page's own server and stays connected. */
export function connectFeed(listener: FeedListener): void {
  const url = `${location.protocol === 'https:' ? 'wss' : 'ws'}://${location.host}/live`;
  let socket: WebSocket | null = null;
  let failures = 0;
  let lastNews_ms = performance.now();
  let asked = false;
  let retry: ReturnType<typeof setTimeout> | undefined;

  const open = (): void => {
    clearTimeout(retry);
    if (socket !== null && socket.readyState <= WebSocket.OPEN) return;
    const opened = new WebSocket(url);
    socket = opened;
    opened.onmessage = (event: MessageEvent<unknown>) => {
      failures = 0;
      asked = false;
      lastNews_ms = performance.now();
      read(event.data, listener);
    };
    opened.onclose = () => {
      if (socket !== opened) return;
      socket = null;
      retry = setTimeout(open, waitBeforeTry_ms(failures, Math.random()));
      failures += 1;
    };
  };
  const ask = (): void => {
    if (socket?.readyState !== WebSocket.OPEN) return;
    const please: PageMessage = { type: 'snapshot-please' };
    socket.send(JSON.stringify(please));
    asked = true;
  };
  /** Back in sight: what was dropped is asked for, and a dead socket is not waited for. */
  const wake = (): void => {
    if (document.hidden) return;
    failures = 0;
    if (socket === null) open();
    else ask();
  };

  document.addEventListener('visibilitychange', wake);
  addEventListener('pageshow', wake);
  addEventListener('online', wake);
  setInterval(() => {
    const quiet_ms = performance.now() - lastNews_ms;
    if (quiet_ms > ASK_AFTER_MS && !asked) ask();
    // Half open: the other end has gone without a word. A fresh socket is the only cure.
    if (quiet_ms > 2 * STALE_AFTER_MS && socket?.readyState === WebSocket.OPEN) socket.close();
    listener.quiet(quiet_ms);
  }, WATCH_EVERY_MS);
  open();
}

function read(data: unknown, listener: FeedListener): void {
  const parsed = parseMessage(data);
  if (typeof parsed === 'string') listener.unreadable(parsed);
  else if (!document.hidden || isKept(parsed)) listener.message(parsed);
}

/** What a hidden page still takes; live frames it drops and asks for when it is back. */
function isKept({ type }: LiveMessage): boolean {
  return type !== 'samples' && type !== 'judgement';
}

/** A message, or what is wrong with it. */
export function parseMessage(data: unknown): LiveMessage | string {
  if (typeof data !== 'string') return 'not text';
  try {
    const result = LiveMessageSchema.safeParse(JSON.parse(data));
    if (result.success) return result.data;
    const [issue] = result.error.issues;
    return `${issue?.path.join('.') ?? ''}: ${issue?.message ?? 'does not fit'}`;
  } catch {
    return 'not JSON';
  }
}
