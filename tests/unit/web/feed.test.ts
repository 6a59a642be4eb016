import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createStreamClock, noteArrival, streamNow_s } from '../../../web/draw/stream-clock.ts';
import { LONGEST_WAIT_MS, waitBeforeTry_ms } from '../../../web/feed/back-off.ts';
import { parseMessage } from '../../../web/feed/connection.ts';
import { statusOf } from '../../support/status.ts';

describe('waitBeforeTry_ms', () => {
  // Full jitter: common practice (uniform between 0 and a doubling limit).
  it('spreads over everything up to a doubling limit of at most 15 s', () => {
    expect(waitBeforeTry_ms(0, 1)).toBe(500);
    expect(waitBeforeTry_ms(3, 0.5)).toBe(2000);
    expect(waitBeforeTry_ms(40, 1)).toBe(LONGEST_WAIT_MS);
    expect(waitBeforeTry_ms(40, 0)).toBe(0);
  });
});

describe('parseMessage', () => {
  it('takes what fits the schema', () => {
    const message = { type: 'status', status: statusOf() };
    expect(parseMessage(JSON.stringify(message))).toEqual(message);
  });
  it.each([
    ['not JSON', '{"type":'],
    [
      'status.health',
      JSON.stringify({ type: 'status', status: { ...statusOf(), health: 'fine' } }),
    ],
    ['type', JSON.stringify({ type: 'surprise' })],
  ])('names what does not fit: %s', (named, text) => {
    expect(parseMessage(text)).toContain(named);
  });
  it('never throws', () => {
    fc.assert(
      fc.property(fc.anything(), (data) => {
        expect(typeof parseMessage(data)).toBe('string');
      }),
    );
  });
});

describe('stream clock', () => {
  it('runs on between messages, and never behind the newest sample', () => {
    const clock = createStreamClock();
    for (let i = 0; i < 100; i++) {
      const late_s = [0.02, 0.08, 0.03][i % 3] ?? 0;
      noteArrival(clock, i * 0.1, 1000 + i * 0.1 + late_s);
      expect(streamNow_s(clock, 1000 + i * 0.1 + late_s)).toBeGreaterThanOrEqual(i * 0.1 - 1e-9);
    }
    expect(streamNow_s(clock, 1010)).toBeCloseTo(9.98, 1);
  });
  it('jumps with the stream: a new recording, or a replay faster than life', () => {
    const clock = createStreamClock();
    noteArrival(clock, 500, 1000);
    noteArrival(clock, 2, 1001);
    expect(streamNow_s(clock, 1001.5)).toBeCloseTo(2.5, 6);
  });
});
