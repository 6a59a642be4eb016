/**
 * The layout of sysfs is the kernel's: Documentation/ABI/testing/sysfs-bus-usb and sysfs-tty in
 * its source (idVendor, idProduct, serial, manufacturer, product; type 0 for a port that is not
 * there), and the device links that it makes for USB serial and CDC-ACM devices.
 */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { listLinuxPorts } from '../../../server/sources/linux-ports.ts';

let root: string;

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'sysfs-'));
  mkdirSync(join(root, 'sys/class/tty'), { recursive: true });
  mkdirSync(join(root, 'dev'));
});
afterEach(() => rmSync(root, { recursive: true }));

function write(path: string, text: string): void {
  mkdirSync(join(root, path, '..'), { recursive: true });
  writeFileSync(join(root, path), text);
}

/** A port in /sys/class/tty whose device is `device` below /sys/devices. */
function addPort(name: string, device: string, { node = true } = {}): void {
  mkdirSync(join(root, 'sys/devices', device), { recursive: true });
  mkdirSync(join(root, 'sys/class/tty', name));
  symlinkSync(join(root, 'sys/devices', device), join(root, 'sys/class/tty', name, 'device'));
  if (node) write(`dev/${name}`, '');
}

const USB = 'sys/devices/pci0000:00/0000:00:14.0/usb1/1-1/1-1.4';

describe.skipIf(process.platform === 'win32')('ports from sysfs', () => {
  it('tell vendor, product, serial number, socket and own name of a USB serial adapter', async () => {
    addPort('ttyUSB0', 'pci0000:00/0000:00:14.0/usb1/1-1/1-1.4/1-1.4:1.0/ttyUSB0');
    write(`${USB}/idVendor`, '1a86\n');
    write(`${USB}/idProduct`, '7523\n');
    write(`${USB}/product`, 'USB Serial\n');
    expect(await listLinuxPorts(root)).toEqual([
      {
        path: '/dev/ttyUSB0',
        vendorId: '1a86',
        productId: '7523',
        serialNumber: undefined,
        product: 'USB Serial',
        maker: undefined,
        location: '1-1.4:1.0',
      },
    ]);
  });

  it('tell the interface of a device that has two ports', async () => {
    addPort('ttyACM0', 'pci0000:00/0000:00:14.0/usb1/1-1/1-1.4/1-1.4:1.0');
    addPort('ttyACM1', 'pci0000:00/0000:00:14.0/usb1/1-1/1-1.4/1-1.4:1.2');
    write(`${USB}/idVendor`, 'f055\n');
    write(`${USB}/serial`, 'A17\n');
    const ports = await listLinuxPorts(root);
    expect(ports.map(({ location }) => location).sort()).toEqual(['1-1.4:1.0', '1-1.4:1.2']);
    expect(ports.map(({ serialNumber }) => serialNumber)).toEqual(['A17', 'A17']);
  });

  it('leave out consoles, places without hardware and ports without a node', async () => {
    mkdirSync(join(root, 'sys/class/tty/tty3'));
    addPort('ttyS0', 'pnp0/00:00');
    write('sys/class/tty/ttyS0/type', '4\n');
    addPort('ttyS1', 'platform/serial8250');
    write('sys/class/tty/ttyS1/type', '0\n');
    addPort('ttyUSB9', 'gone', { node: false });
    expect(await listLinuxPorts(root)).toEqual([{ path: '/dev/ttyS0' }]);
  });

  it('reject where there is no sysfs, rather than say that nothing is attached', async () => {
    await expect(listLinuxPorts(join(root, 'nowhere'))).rejects.toThrow('ENOENT');
  });
});
