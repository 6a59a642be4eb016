import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Input } from '#core/inputs.ts';
import type { Board, PortState } from '#core/link.ts';
import type { Want } from '../../../server/sources/choice.ts';
import { checkPath, openSerial } from '../../../server/sources/serial.ts';
import type { Source } from '../../../server/sources/source.ts';
import { createFakePorts, type FakePort, type FakePorts } from './fake-ports.ts';

const METER = { path: '/dev/ttyACM0', vendorId: 'f055', productId: '9800', serialNumber: 'A17', location: '1-1:1.0' };
const OTHER = { ...METER, path: '/dev/ttyACM5', serialNumber: 'B22', location: '1-5:1.0' };
const METER_ID = 'usb:f055:9800:A17';

let ports: FakePorts;
let inputs: Input[];
let states: PortState[];
let offers: (readonly Board[])[];
let source: Source | null;

beforeEach(() => {
  vi.useFakeTimers();
  ports = createFakePorts();
  inputs = [];
  states = [];
  offers = [];
  source = null;
});
afterEach(async () => {
  await source?.close();
  expect(vi.getTimerCount(), 'no timer outlives the source').toBe(0);
  vi.useRealTimers();
});

function open(want: Want = { id: METER_ID }, speed_Bd?: number): Source {
  const start_ms = Date.now();
  source = openSerial({
    want,
    ports,
    clock: () => (Date.now() - start_ms) / 1000,
    listener: {
      input: (input) => inputs.push(input),
      port: (state) => states.push(state),
      offers: (boards) => offers.push(boards),
    },
    ...(speed_Bd === undefined ? {} : { speed_Bd }),
  });
  return source;
}

async function pass(seconds: number): Promise<void> {
  await vi.advanceTimersByTimeAsync(seconds * 1000);
}

function newestPort(): FakePort {
  const port = ports.opened.at(-1);
  if (port === undefined) throw new Error('no port was opened');
  return port;
}

const phases = (): string[] => states.map(({ phase }) => phase);
const kinds = (): string[] => inputs.map((input) => (input.kind === 'closed' ? input.reason : input.kind));
const lines = (): string[] => inputs.flatMap((input) => (input.kind === 'line' ? [input.text] : []));
const newestState = (): PortState | undefined => states.at(-1);

describe('asking a board', () => {
  it('writes each request as a line of its own, with an empty one before it', async () => {
    ports.plug(METER);
    const board = open();
    board.ask({ kind: 'identify' });
    await pass(0);
    expect(newestPort().heard).toBe('');
    board.ask({ kind: 'identify' });
    board.ask({ kind: 'zero', channel: 2 });
    // The checksum is Python's: binascii.crc_hqx(b'ask,zero,2', 0xFFFF).
    expect(newestPort().heard).toBe('\n*IDN?\n\n$ask,zero,2*90B6\n');
  });

  it('writes nothing by itself, and nothing once the board has gone', async () => {
    ports.plug(METER);
    const board = open();
    await pass(10);
    const port = newestPort();
    ports.pull(METER.path);
    await pass(2);
    board.ask({ kind: 'identify' });
    expect(port.heard).toBe('');
  });
});

describe('taking up a board', () => {
  it('waits for it, opens it at 115200 and passes its lines on', async () => {
    open();
    await pass(5);
    expect(states).toEqual([{ phase: 'searching' }]);
    ports.plug(METER);
    await pass(1);
    newestPort().say('1,2\n3,4\n');
    expect(phases()).toEqual(['searching', 'opening', 'open']);
    expect(newestPort()).toMatchObject({ path: '/dev/ttyACM0', speeds_Bd: [115_200] });
    expect(inputs[0]).toMatchObject({
      kind: 'opened',
      link: { source: 'serial', id: METER_ID, clock: 'arrival', wholeFromStart: false },
    });
    expect(lines()).toEqual(['1,2', '3,4']);
  });

  it('opens a path given by hand that nothing lists', async () => {
    ports.plug({ path: '/tmp/rig' });
    ports.hideList();
    open({ path: '/tmp/rig' });
    await pass(0);
    newestPort().say('1,2\n');
    expect(lines()).toEqual(['1,2']);
    expect(newestState()).toMatchObject({ phase: 'open', board: { id: 'path:/tmp/rig' } });
  });

  it('says that there is nothing at a path, and takes what appears there', async () => {
    open({ path: '/dev/ttyACM0' });
    await pass(0);
    expect(newestState()).toMatchObject({ phase: 'refused', code: 'missing' });
    expect(newestState()).toHaveProperty('message', expect.stringContaining('/dev/ttyACM0'));
    ports.plug(METER);
    await pass(1);
    expect(newestState()).toMatchObject({ phase: 'open', board: { id: METER_ID } });
  });

  it('can be asked beforehand whether there is anything at a path', async () => {
    ports.plug(METER);
    await expect(checkPath(ports, METER.path)).resolves.toBeUndefined();
    await expect(checkPath(ports, '/dev/none')).rejects.toMatchObject({ code: 'missing' });
  });

  it('refuses 1200 Bd before touching a port', () => {
    ports.plug(METER);
    expect(() => open({ id: METER_ID }, 1200)).toThrow(/1200/);
    expect(ports.opened).toEqual([]);
  });

  it('offers the other boards, as they come and go', async () => {
    ports.plug(METER);
    open();
    await pass(0);
    ports.plug(OTHER);
    ports.plug({ path: '/dev/ttyS0' });
    await pass(3);
    ports.pull(OTHER.path);
    await pass(3);
    expect(offers.map((list) => list.map(({ id }) => id))).toEqual([[], ['usb:f055:9800:B22'], []]);
  });
});

describe('a board that is pulled out', () => {
  it('is noticed by event, and taken up again by identity under another path', async () => {
    ports.plug(METER);
    open();
    await pass(3);
    newestPort().say('1,2\n');
    ports.pull(METER.path);
    await pass(0);
    expect(kinds()).toEqual(['opened', 'line', 'unplugged']);
    expect(newestState()).toMatchObject({ phase: 'unplugged', board: { id: METER_ID } });
    await pass(1);
    ports.plug({ ...METER, path: '/dev/ttyACM2', location: '2-4:1.0' });
    await pass(1);
    newestPort().say('3,4\n');
    expect(newestPort().path).toBe('/dev/ttyACM2');
    expect(kinds()).toEqual(['opened', 'line', 'unplugged', 'opened', 'line']);
    expect(phases()).toEqual(['opening', 'open', 'unplugged', 'opening', 'open']);
  });

  it('is noticed without any event by not being listed', async () => {
    ports.plug(METER);
    open();
    await pass(5);
    const port = newestPort();
    ports.pull(METER.path, false);
    await pass(1);
    expect(port.closed).toBe(true);
    expect(kinds()).toEqual(['opened', 'unplugged']);
    expect(newestState()?.phase).toBe('unplugged');
  });

  it('is not replaced by another board', async () => {
    ports.plug(METER);
    open({ path: METER.path });
    await pass(5);
    ports.pull(METER.path);
    ports.plug({ ...OTHER, path: METER.path });
    await pass(30);
    expect(ports.opened.length).toBe(1);
    expect(newestState()?.phase).toBe('unplugged');
    expect(offers.at(-1)?.map(({ id }) => id)).toEqual(['usb:f055:9800:B22']);
  });

  it('never fuses the half line before with the half line after', async () => {
    ports.plug(METER);
    open();
    await pass(3);
    newestPort().say('1,2\n3,4');
    ports.pull(METER.path);
    await pass(2);
    ports.plug(METER);
    await pass(1);
    newestPort().say('56,7\n8,9\n');
    expect(lines()).toEqual(['1,2', '56,7', '8,9']);
  });

  it('is explained when it left again seconds after it came', async () => {
    open();
    await pass(2);
    ports.plug(METER);
    await pass(6);
    ports.pull(METER.path);
    await pass(1);
    expect(newestState()).toMatchObject({ phase: 'unplugged' });
    expect(newestState()).toHaveProperty('message', expect.stringContaining('a service of this computer'));
    ports.plug(METER);
    await pass(20);
    ports.pull(METER.path);
    await pass(1);
    expect(newestState()).not.toHaveProperty('message');
  });

  it('is not believed gone because the system cannot list', async () => {
    ports.plug(METER);
    open();
    await pass(2);
    ports.hideList();
    await pass(10);
    expect(kinds()).toEqual(['opened']);
  });
});

describe('silence', () => {
  it('of a board that spoke before: opened afresh, once', async () => {
    ports.plug(METER);
    const serial = open();
    await pass(3);
    newestPort().say('1,2\n');
    await pass(2.5);
    serial.presumeLost();
    await pass(1);
    expect(kinds()).toEqual(['opened', 'line', 'unplugged', 'opened']);
    expect(ports.opened[0]?.closed).toBe(true);
    await pass(10);
    serial.presumeLost();
    await pass(10);
    expect(ports.opened.length).toBe(2);
  });

  it('is found to be the unplugging that no event told', async () => {
    ports.plug(METER);
    const serial = open();
    await pass(3);
    newestPort().say('1,2\n');
    await pass(2.1);
    ports.pull(METER.path, false);
    serial.presumeLost();
    await pass(0);
    expect(newestState()?.phase).toBe('unplugged');
  });

  it('of lines is not believed while bytes come', async () => {
    ports.plug(METER);
    const serial = open();
    await pass(3);
    for (let i = 0; i < 20; i += 1) {
      newestPort().say('9'.repeat(30));
      if (i === 5) serial.presumeLost();
      await pass(0.5);
    }
    expect(ports.opened.length).toBe(1);
  });

  it('doubted right after the last byte is looked into again', async () => {
    ports.plug(METER);
    const serial = open();
    await pass(3);
    newestPort().say('1,2\n3,');
    await pass(1.9);
    serial.presumeLost();
    await pass(0);
    expect(ports.opened.length).toBe(1);
    await pass(2);
    expect(ports.opened.length).toBe(2);
  });

  it('that was doubted and then broken is settled: a later pause means nothing', async () => {
    ports.plug(METER);
    const serial = open();
    await pass(3);
    newestPort().say('1,2\n');
    await pass(1.5);
    serial.presumeLost();
    newestPort().say('3,4\n');
    await pass(30);
    expect(ports.opened.length).toBe(1);
  });

  it('after opening: DTR is let fall and rise once, and the handle kept', async () => {
    ports.plug(METER);
    const serial = open();
    await pass(2.9);
    expect(newestPort().dtr).toEqual([]);
    await pass(0.2);
    serial.presumeLost();
    await pass(60);
    expect(newestPort().dtr).toEqual([false, true]);
    expect(ports.opened.length).toBe(1);
  });

  it('does not come up when the board speaks within the grace', async () => {
    ports.plug(METER);
    open();
    await pass(2);
    newestPort().say('hello\n');
    await pass(5);
    expect(newestPort().dtr).toEqual([]);
  });
});

describe('a port that will not open', () => {
  it('is told once and tried again, ever less often, until it opens', async () => {
    ports.plug(METER);
    ports.refuse('busy');
    open();
    await pass(60);
    expect(phases()).toEqual(['opening', 'refused']);
    expect(newestState()).toMatchObject({ code: 'busy', message: 'refused: busy' });
    ports.refuse(null);
    await pass(5);
    expect(phases()).toEqual(['opening', 'refused', 'open']);
  });

  it('is being checked by the system when the board is new', async () => {
    open();
    await pass(2);
    ports.plug(METER);
    ports.refuse('busy');
    await pass(3);
    expect(newestState()).toHaveProperty('message', expect.stringContaining('checking the new board'));
    await pass(20);
    expect(newestState()).toHaveProperty('message', 'refused: busy');
  });

  it('is not called forbidden while the system still sets up its node', async () => {
    open();
    await pass(2);
    ports.plug(METER);
    ports.refuse('denied');
    await pass(1.2);
    ports.refuse(null);
    await pass(3);
    expect(phases()).toEqual(['searching', 'opening', 'open']);
  });

  it('is called forbidden when that does not pass', async () => {
    open();
    await pass(2);
    ports.plug(METER);
    ports.refuse('denied');
    await pass(10);
    expect(newestState()).toMatchObject({ phase: 'refused', code: 'denied' });
  });

  it('that vanished while it was opened is unplugged', async () => {
    ports.plug(METER);
    ports.refuse('missing');
    open();
    await pass(0);
    expect(newestState()?.phase).toBe('unplugged');
  });

  it('that opens and closes at once is tried ever less often', async () => {
    ports.plug(METER);
    open();
    for (let i = 0; i < 200; i += 1) {
      await pass(0.1);
      if (ports.opened.at(-1)?.closed === false) {
        ports.pull(METER.path);
        ports.plug(METER);
        await pass(0);
        expect(newestState()?.phase).toBe('opening');
      }
    }
    expect(ports.opened.length).toBeLessThan(10);
  });
});

describe('line speed', () => {
  const garbage = Uint8Array.from({ length: 200 }, (_, i) => 0x80 | i);

  it('is searched for when what comes is not text; to the pipeline that is another link', async () => {
    ports.plug(METER);
    open();
    await pass(0);
    newestPort().sayBytes(garbage);
    await pass(2);
    newestPort().sayBytes(garbage);
    await pass(2);
    expect(newestPort().speeds_Bd).toEqual([115_200, 9_600]);
    newestPort().say('1,2\n');
    expect(newestState()).toMatchObject({ phase: 'open', speed_Bd: 9_600 });
    expect(kinds().filter((kind) => kind !== 'dropped')).toEqual(['opened', 'unplugged', 'opened', 'line']);
  });

  it('is remembered for when the board returns', async () => {
    ports.plug(METER);
    open();
    for (let i = 0; i < 3; i += 1) {
      await pass(2);
      newestPort().sayBytes(garbage);
    }
    ports.pull(METER.path);
    await pass(2);
    ports.plug(METER);
    await pass(2);
    expect(ports.opened.length).toBe(2);
    expect(newestPort().speeds_Bd).toEqual([9_600]);
  });
});

describe('ending', () => {
  it('tells closed last, with the reason, and gives the port back', async () => {
    ports.plug(METER);
    const serial = open();
    await pass(1);
    await serial.close('replaced');
    expect(inputs.at(-1)).toMatchObject({ kind: 'closed', reason: 'replaced' });
    expect(newestPort().closed).toBe(true);
    expect(newestState()?.phase).toBe('open');
  });

  it('without a board says so and tells no input', async () => {
    const serial = open();
    await pass(1);
    await serial.close();
    expect(inputs).toEqual([]);
    expect(newestState()?.phase).toBe('ended');
  });

  it('a hundred unplugs and returns leave nothing behind', async () => {
    ports.plug(METER);
    open();
    for (let i = 0; i < 100; i += 1) {
      await pass(3);
      newestPort().say(`${i},1\n`);
      ports.pull(METER.path, i % 2 === 0);
      await pass(2);
      ports.plug(METER);
    }
    await pass(1);
    expect(ports.opened.filter(({ closed }) => !closed).length).toBe(1);
    expect(lines().length).toBe(100);
    expect(kinds().filter((kind) => kind === 'unplugged').length).toBe(100);
  });
});
