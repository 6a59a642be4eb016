import { describe, expect, it } from 'vitest';
import { boardAtPath, isSameAttachment, isUsb, toBoards } from '../../../server/sources/naming.ts';

/** Made-up devices: vendor f055 is the number that hobby projects give themselves. */
const METER = { path: '/dev/ttyACM1', vendorId: 'F055', productId: '9800', product: 'Bench meter' };
const ADAPTER = { path: '/dev/ttyUSB0', vendorId: '1a86', productId: '7523', location: '1-1.4:1.0' };

describe('names of boards', () => {
  it('say what the device calls itself', () => {
    expect(toBoards([METER])[0]?.name).toBe('USB board (Bench meter)');
    expect(toBoards([{ ...ADAPTER, product: 'USB2.0-Serial' }])[0]?.name).toBe('USB serial adapter (USB2.0-Serial)');
  });

  it('fall back to the maker, then to the path', () => {
    const { product: _, ...anonymous } = METER;
    expect(toBoards([{ ...anonymous, maker: 'Workshop 7' }])[0]?.name).toBe('USB board (Workshop 7)');
    expect(toBoards([anonymous])[0]?.name).toBe('USB board (/dev/ttyACM1)');
  });

  it('tell Bluetooth and built-in ports apart from boards', () => {
    const names = toBoards([
      { path: '/dev/rfcomm0' },
      { path: '/dev/ttyS0' },
      { path: '/dev/tty.Bluetooth-Incoming-Port' },
      { path: 'COM7', product: 'Standard Serial over Bluetooth link' },
    ]).map(({ name }) => name);
    expect(names.sort()).toEqual([
      'Bluetooth port (/dev/rfcomm0)',
      'Bluetooth port (/dev/tty.Bluetooth-Incoming-Port)',
      'Bluetooth port (COM7)',
      'Serial port (/dev/ttyS0)',
    ]);
  });

  it('are told apart by the path when two devices say the same', () => {
    const names = toBoards([METER, { ...METER, path: '/dev/ttyACM0' }]).map(({ name }) => name);
    expect(names).toEqual(['USB board (Bench meter) at /dev/ttyACM0', 'USB board (Bench meter) at /dev/ttyACM1']);
  });

  it('never carry control characters or endless text from the device', () => {
    const [board] = toBoards([{ ...METER, product: `\u001b[31mBad\n${'x'.repeat(500)}` }]);
    expect(board?.name).toMatch(/^USB board \(\[31mBad x+\)$/);
    expect(board?.name.length).toBeLessThan(80);
  });
});

describe('identity of boards', () => {
  it('is vendor, product and serial number, wherever it is plugged in', () => {
    const one = toBoards([{ ...METER, serialNumber: 'A17', location: '1-1:1.0' }])[0];
    const other = toBoards([{ ...METER, serialNumber: 'A17', location: '2-3:1.0', path: '/dev/ttyACM4' }])[0];
    expect(one?.id).toBe('usb:f055:9800:A17');
    expect(other?.id).toBe(one?.id);
  });

  it('is the socket when the board has no number of its own', () => {
    expect(toBoards([ADAPTER])[0]?.id).toBe('usb:1a86:7523@1-1.4:1.0');
  });

  it('is the socket when the number was made up by the system', () => {
    const [board] = toBoards([{ ...ADAPTER, location: undefined, serialNumber: '5&2c8b1f&0&3' }]);
    expect(board).toMatchObject({ id: 'usb:1a86:7523@5&2c8b1f&0&3', serialNumber: null });
  });

  it('is the path when nothing else is known', () => {
    expect(boardAtPath('/tmp/rig')).toMatchObject({ id: 'path:/tmp/rig', vendorId: null });
  });

  it('stays unique when copies share one serial number', () => {
    const ids = toBoards([
      { ...METER, serialNumber: '0001', location: '1-1:1.0' },
      { ...METER, serialNumber: '0001', location: '1-2:1.0', path: '/dev/ttyACM0' },
    ]).map(({ id }) => id);
    expect(ids).toEqual(['usb:f055:9800:0001@1-2:1.0', 'usb:f055:9800:0001@1-1:1.0']);
  });
});

describe('attachment', () => {
  const [here] = toBoards([ADAPTER]);
  const [elsewhere] = toBoards([{ ...ADAPTER, location: '1-1.2:1.0' }]);
  if (here === undefined || elsewhere === undefined) throw new Error('no boards');

  it('is the same only in the same socket under the same path', () => {
    expect(isSameAttachment(here, { ...here })).toBe(true);
    expect(isSameAttachment(here, elsewhere)).toBe(false);
  });

  it('does not depend on an identity that changed because a twin was plugged in', () => {
    expect(isSameAttachment(here, { ...here, id: `${here.id}@twin` })).toBe(true);
  });

  it('counts only USB devices as boards to offer', () => {
    expect(isUsb(here)).toBe(true);
    expect(isUsb(boardAtPath('/dev/ttyS0'))).toBe(false);
  });
});
