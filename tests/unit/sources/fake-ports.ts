import type { Board } from '#core/link.ts';
import { toBoards, type PortFacts } from '../../../server/sources/naming.ts';
import { PortRefusal, type OpenPort, type PortListener, type Ports, type RefusalCode } from '../../../server/sources/ports.ts';

/** Serial ports that a test plugs in, pulls out and speaks through. */
export interface FakePorts extends Ports {
  /** What was opened, in order. */
  readonly opened: readonly FakePort[];
  plug(facts: PortFacts): void;
  /** Pulls it out; the open port says so itself only when `tells`. */
  pull(path: string, tells?: boolean): void;
  /** From now on opening is refused, or with null no longer. */
  refuse(code: RefusalCode | null): void;
  /** From now on the system can't list its ports. */
  hideList(): void;
}

export interface FakePort {
  readonly path: string;
  readonly speeds_Bd: number[];
  readonly dtr: boolean[];
  closed: boolean;
  /** What was sent to it. */
  heard: string;
  say(text: string): void;
  sayBytes(bytes: Uint8Array): void;
}

export function createFakePorts(): FakePorts {
  const facts = new Map<string, PortFacts>();
  const opened: (FakePort & { hangUp(): void })[] = [];
  let refusal: RefusalCode | null = null;
  let listable = true;
  return {
    opened,
    plug: (port) => void facts.set(port.path, port),
    pull(path, tells = true) {
      facts.delete(path);
      if (tells) for (const port of opened) if (port.path === path) port.hangUp();
    },
    refuse: (code) => {
      refusal = code;
    },
    hideList: () => {
      listable = false;
    },
    list: (): Promise<Board[]> =>
      listable ? Promise.resolve(toBoards([...facts.values()])) : Promise.reject(new Error('no udevadm')),
    resolve: (path) => Promise.resolve(facts.has(path) ? path : null),
    open(path, speed_Bd) {
      if (refusal !== null) return Promise.reject(new PortRefusal(refusal, `refused: ${refusal}`));
      if (!facts.has(path)) return Promise.reject(new PortRefusal('missing', 'nothing there'));
      const { port, handle } = createPort(path, speed_Bd);
      opened.push(port);
      return Promise.resolve(handle);
    },
  };
}

function createPort(path: string, speed_Bd: number) {
  let listener: PortListener | null = null;
  const port = {
    path,
    speeds_Bd: [speed_Bd],
    dtr: [] as boolean[],
    closed: false,
    heard: '',
    say: (text: string) => port.sayBytes(new TextEncoder().encode(text)),
    sayBytes(bytes: Uint8Array) {
      if (port.closed) throw new Error('the test speaks through a closed port');
      listener?.bytes(bytes);
    },
    hangUp() {
      if (port.closed) return;
      port.closed = true;
      listener?.lost();
    },
  };
  const handle: OpenPort = {
    listen: (given) => {
      listener = given;
    },
    setDtr: (on) => {
      port.dtr.push(on);
      return Promise.resolve();
    },
    changeSpeed: (to_Bd) => {
      port.speeds_Bd.push(to_Bd);
      return Promise.resolve();
    },
    write: (text) => {
      port.heard += text;
    },
    close: () => {
      port.closed = true;
      return Promise.resolve();
    },
  };
  return { port, handle };
}
