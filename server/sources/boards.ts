import type { Board } from '#core/link.ts';
import { listLinuxPorts } from './linux-ports.ts';
import { isUsb, toBoards, type PortFacts } from './naming.ts';
import type { Ports } from './ports.ts';

/** How often the attached boards are looked at. */
export const LOOK_EVERY_S = 1;

/** The serial devices seen now; empty where they can't be listed. Never pseudo-terminals. */
export async function listBoards(): Promise<Board[]> {
  return listAttached().catch(() => []);
}

/** As `listBoards`, but rejects where the system can't list: not to see is not to be gone. */
export async function listAttached(): Promise<Board[]> {
  const isLinux = process.platform === 'linux';
  return toBoards(await (isLinux ? listLinuxPorts().catch(listElsewhere) : listElsewhere()));
}

async function listElsewhere(): Promise<PortFacts[]> {
  const { SerialPort } = await import('serialport');
  return (await SerialPort.list()).map(factsFromListing);
}

/** `friendlyName` is told on Windows only, with the path in it: "… (COM3)". */
function factsFromListing(port: ListedPort): PortFacts {
  const { path, vendorId, productId, serialNumber, manufacturer, locationId } = port;
  const product = port.friendlyName?.replace(` (${path})`, '');
  const known = { path, vendorId, productId, serialNumber, product };
  return { ...known, maker: manufacturer, location: locationId };
}

interface ListedPort {
  readonly path: string;
  readonly vendorId: string | undefined;
  readonly productId: string | undefined;
  readonly serialNumber: string | undefined;
  readonly manufacturer: string | undefined;
  readonly locationId: string | undefined;
  readonly friendlyName?: string;
}

/**
 * Tells the attached USB boards at once and at every change, until the returned function is called.
 * For the time when no serial source is running, which tells them itself (`SourceListener.offers`).
 */
export function watchBoards(
  ports: Pick<Ports, 'list'>,
  onChange: (boards: readonly Board[]) => void,
): () => void {
  let told: string | null = null;
  let timer: NodeJS.Timeout | undefined;
  let stopped = false;
  async function look(): Promise<void> {
    const boards = await ports.list().catch(() => []);
    if (stopped) return;
    const usb = boards.filter(isUsb);
    const now = JSON.stringify(usb);
    if (now !== told) onChange(usb);
    told = now;
    timer = setTimeout(() => void look(), LOOK_EVERY_S * 1000);
  }
  void look();
  return () => {
    stopped = true;
    clearTimeout(timer);
  };
}
