import { describe, expect, it } from 'vitest';
import type { Board } from '#core/link.ts';
import { chooseBoard } from '../../../server/sources/choice.ts';
import { toBoards } from '../../../server/sources/naming.ts';

const NUMBERED = { vendorId: 'f055', productId: '9800' };
const PLAIN = { vendorId: '1a86', productId: '7523' };

function boards(...facts: Parameters<typeof toBoards>[0]): Board[] {
  return toBoards(facts);
}
function only(list: Board[]): Board {
  const [board] = list;
  if (board === undefined) throw new Error('no board');
  return board;
}

describe('choosing the board', () => {
  const numbered = { path: '/dev/ttyACM0', ...NUMBERED, serialNumber: 'A17', location: '1-1:1.0' };
  const plain = { path: '/dev/ttyUSB0', ...PLAIN, location: '1-2:1.0' };

  it('finds it by identity under another path and in another socket', () => {
    const attached = boards({ ...numbered, path: '/dev/ttyACM3', location: '3-1:1.0' }, plain);
    const found = chooseBoard(attached, { id: 'usb:f055:9800:A17' }, null);
    expect(found?.path).toBe('/dev/ttyACM3');
  });

  it('takes the one in use before, not whatever now has the path it was given', () => {
    const last = only(boards(numbered));
    const attached = boards({ ...numbered, serialNumber: 'B22' }, { ...numbered, path: '/dev/ttyACM1' });
    expect(chooseBoard(attached, { path: '/dev/ttyACM0' }, last)?.path).toBe('/dev/ttyACM1');
  });

  it('never takes another board for it', () => {
    const last = only(boards(numbered));
    expect(chooseBoard(boards({ ...numbered, serialNumber: 'B22' }), { id: last.id }, last)).toBeNull();
    expect(chooseBoard(boards(plain), { id: last.id }, last)).toBeNull();
  });

  it('knows a board without a number by its socket', () => {
    const last = only(boards(plain));
    const twin = { ...plain, path: '/dev/ttyUSB0', location: '1-3:1.0' };
    const back = { ...plain, path: '/dev/ttyUSB1' };
    expect(chooseBoard(boards(twin, back), { id: last.id }, last)?.path).toBe('/dev/ttyUSB1');
  });

  it('knows a board without a number in another socket when it is the only one of its kind', () => {
    const last = only(boards(plain));
    const moved = { ...plain, location: '1-3:1.0' };
    expect(chooseBoard(boards(moved, numbered), { id: last.id }, last)?.location).toBe('1-3:1.0');
    const twins = boards(moved, { ...plain, location: '1-4:1.0', path: '/dev/ttyUSB1' });
    expect(chooseBoard(twins, { id: last.id }, last)).toBeNull();
  });
});
