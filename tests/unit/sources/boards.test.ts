import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { watchBoards } from '../../../server/sources/boards.ts';
import { createFakePorts } from './fake-ports.ts';

const METER = { path: '/dev/ttyACM0', vendorId: 'f055', productId: '9800', serialNumber: 'A17' };

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe('watching for boards', () => {
  it('tells them at once and at every change, and stops when asked', async () => {
    const ports = createFakePorts();
    const told: string[][] = [];
    const stop = watchBoards(ports, (boards) => told.push(boards.map(({ path }) => path)));
    await vi.advanceTimersByTimeAsync(3000);
    ports.plug(METER);
    ports.plug({ path: '/dev/ttyS0' });
    await vi.advanceTimersByTimeAsync(3000);
    ports.pull(METER.path);
    await vi.advanceTimersByTimeAsync(3000);
    expect(told).toEqual([[], ['/dev/ttyACM0'], []]);
    stop();
    expect(vi.getTimerCount()).toBe(0);
  });

  it('tells nothing attached where the system cannot list', async () => {
    const ports = createFakePorts();
    ports.hideList();
    const told: number[] = [];
    const stop = watchBoards(ports, (boards) => told.push(boards.length));
    await vi.advanceTimersByTimeAsync(3000);
    stop();
    expect(told).toEqual([0]);
  });
});
