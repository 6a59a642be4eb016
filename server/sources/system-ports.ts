import { realpath } from 'node:fs/promises';
import type { SerialPort } from 'serialport';
import { listAttached } from './boards.ts';
import type { OpenPort, PortListener, Ports } from './ports.ts';
import { findRefusalFacts, refusalOf } from './refusal.ts';

/** What is used of the class that opens ports, so that another binding can stand in for it. */
type PortStream = Pick<SerialPort, 'open' | 'close' | 'set' | 'update' | 'write' | 'isOpen'> & {
  on(event: 'data', listener: (chunk: Uint8Array) => void): unknown;
  on(event: 'close' | 'error', listener: () => void): unknown;
};
export type PortClass = new (options: {
  path: string;
  baudRate: number;
  autoOpen: false;
  lock: true;
}) => PortStream;

/** Giving a handle back takes milliseconds; a system that never says so must not stop us. */
const CLOSE_LIMIT_MS = 2000;

/** The real ports of this computer. The native part is loaded when the first port is opened. */
export function createSystemPorts(
  loadClass: () => Promise<PortClass> = async () => (await import('serialport')).SerialPort,
): Ports {
  return {
    list: listAttached,
    resolve: resolvePath,
    open: async (path, speed_Bd) => openPort(await loadClass(), path, speed_Bd),
  };
}

/** Windows names ports outside the file system: there, opening tells whether one exists. */
async function resolvePath(path: string): Promise<string | null> {
  return process.platform === 'win32' ? path : realpath(path).catch(() => null);
}

async function openPort(Port: PortClass, path: string, speed_Bd: number): Promise<OpenPort> {
  const port = new Port({ path, baudRate: speed_Bd, autoOpen: false, lock: true });
  try {
    await called((done) => port.open(done));
  } catch (error) {
    const said = (error as Error).message;
    throw refusalOf(path, said, await findRefusalFacts(path, said));
  }
  const opened = wrap(port);
  await opened.setDtr(true);
  return opened;
}

function wrap(port: PortStream): OpenPort {
  const closed = new Promise<void>((resolve) => port.on('close', resolve));
  // Errors after opening mean the same as the end of the port; without a listener they would throw.
  port.on('error', () => undefined);
  return {
    listen({ bytes, lost }: PortListener) {
      port.on('data', bytes);
      port.on('close', lost);
      port.on('error', lost);
    },
    // Both lines together: on boards that wire them to reset and boot mode, that means "run".
    // A pseudo-terminal has neither, which is no reason not to read from it.
    setDtr: (on) => called((done) => port.set({ dtr: on, rts: true }, done)).catch(() => undefined),
    write: (text) => void port.write(text, 'ascii'),
    changeSpeed: (speed_Bd) => called((done) => port.update({ baudRate: speed_Bd }, done)),
    close: () => {
      // When it is not open it is closing by itself already, and says so when it has.
      if (port.isOpen) port.close(() => undefined);
      return within(CLOSE_LIMIT_MS, closed);
    },
  };
}

async function within(limit_ms: number, promise: Promise<void>): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const limit = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, limit_ms);
  });
  await Promise.race([promise, limit]);
  clearTimeout(timer);
}

function called(act: (done: (error: Error | null) => void) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    act((error) => (error ? reject(error) : resolve()));
  });
}
