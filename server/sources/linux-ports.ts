import { readdir, readFile, realpath, access } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { PortFacts } from './naming.ts';

/** Names that Linux gives to serial ports with a device behind them. */
const SERIAL_NAMES = /^(tty(S|ACM|USB|AMA|O|MFD|WCH|XRUSB)\d+|rfcomm\d+)$/;

/**
 * The serial ports that the kernel knows, from sysfs: cheap enough to ask every second, complete
 * without udev, and it tells the socket and the device's own name, which a udev listing does not.
 * Rejects where there is no sysfs.
 * @param root stands for `/` in tests
 */
export async function listLinuxPorts(root = '/'): Promise<PortFacts[]> {
  const folder = join(root, 'sys/class/tty');
  const names = (await readdir(folder)).filter((name) => SERIAL_NAMES.test(name));
  const found = await Promise.all(names.map((name) => factsOf(root, join(folder, name))));
  return found.filter((facts) => facts !== null);
}

async function factsOf(root: string, folder: string): Promise<PortFacts | null> {
  const name = basename(folder);
  const device = await realpath(join(folder, 'device')).catch(() => null);
  const exists = await access(join(root, 'dev', name)).then(
    () => true,
    () => false,
  );
  // Type 0 is a driver's place for a port that this computer does not have.
  if (device === null || !exists || (await attribute(folder, 'type')) === '0') return null;
  const usb = await usbDeviceOf(device);
  return { path: `/dev/${name}`, ...(usb === null ? {} : await usbFacts(usb)) };
}

interface UsbDevice {
  readonly folder: string;
  /** Socket and, for devices with several ports, interface: `1-1.4:1.0`. */
  readonly location: string;
}

/** Walks up from the port to the USB device that carries it. */
async function usbDeviceOf(device: string): Promise<UsbDevice | null> {
  let below = device;
  for (let folder = device; folder !== dirname(folder); folder = dirname(folder)) {
    if ((await attribute(folder, 'idVendor')) !== undefined) {
      return { folder, location: basename(below) };
    }
    below = folder;
  }
  return null;
}

async function usbFacts({ folder, location }: UsbDevice): Promise<Omit<PortFacts, 'path'>> {
  const names = ['idVendor', 'idProduct', 'serial', 'product', 'manufacturer'];
  const [vendorId, productId, serialNumber, product, maker] = await Promise.all(
    names.map((name) => attribute(folder, name)),
  );
  return { vendorId, productId, serialNumber, product, maker, location };
}

async function attribute(folder: string, name: string): Promise<string | undefined> {
  const text = await readFile(join(folder, name), 'utf8').catch(() => undefined);
  return text?.trim();
}
