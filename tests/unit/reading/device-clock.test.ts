import { describe, expect, it } from 'vitest';
import {
  createDeviceClock,
  placeDeviceTime,
  releaseClock,
  setTimeUnit,
  timeNear_s,
  type DeviceClock,
  type Witness,
} from '#core/reading/device-clock.ts';

type Row = readonly [ticks: number, at_s: number];

function clockOf(unit: 'us' | 'ms' | 's', mode: 'arrival' | 'stream' = 'arrival'): DeviceClock {
  const clock = createDeviceClock();
  clock.mode = mode;
  setTimeUnit(clock, unit);
  return clock;
}

/** Places rows and gives what became of each: its time, with * where the clock began anew, or -. */
function place(clock: DeviceClock, rows: readonly Row[], witness: Witness = 'none'): string[] {
  let last_s = -Infinity;
  return rows.map(([ticks, at_s]) => {
    const placement = placeDeviceTime(clock, ticks, at_s, last_s, witness);
    if (placement === 'refused') return '-';
    last_s = clock.time_s;
    return `${placement === 'restarted' ? '*' : ''}${Number(last_s.toFixed(6))}`;
  });
}

const US_SPAN = 2 ** 32;

describe('the device clock', () => {
  it("keeps the device's spacing whatever arrivals do", () => {
    const rows: Row[] = [
      [1000, 5],
      [1100, 5.3],
      [1200, 5.3],
      [1300, 5.31],
      [1400, 7],
      [1500, 7],
    ];
    expect(place(clockOf('ms'), rows)).toEqual(['5', '5.1', '5.2', '5.3', '5.4', '5.5']);
  });

  it.each([
    ['us', 1e6],
    ['ms', 1e3],
  ] as const)('goes on across the wrap of %s', (unit, perS) => {
    const ticks = [-0.2, -0.1, 0.05, 0.15].map((s) => Math.round((s * perS + US_SPAN) % US_SPAN));
    const rows = ticks.map((tick, i): Row => [tick, 10 + i / 10]);
    expect(place(clockOf(unit), rows)).toEqual(['10', '10.1', '10.25', '10.35']);
  });

  it('goes on across many wraps', () => {
    const clock = clockOf('us');
    const step = 2 ** 30;
    const rows = Array.from({ length: 13 }, (_, i): Row => [
      (i * step) % US_SPAN,
      (i * step) / 1e6,
    ]);
    expect(place(clock, rows)).toEqual(rows.map(([, at_s]) => `${Number(at_s.toFixed(6))}`));
  });

  it('goes on across a wrap in a silence', () => {
    const rows: Row[] = [
      [US_SPAN - 5e6, 10],
      [5e6, 20.02],
    ];
    expect(place(clockOf('us'), rows)).toEqual(['10', '20']);
  });

  it('goes on across a wrap when lines come late in a bunch', () => {
    const rows: Row[] = [
      [US_SPAN - 2e6, 10],
      [US_SPAN - 1e6, 14],
      [1e6, 14],
      [2e6, 14],
    ];
    expect(place(clockOf('us'), rows)).toEqual(['10', '11', '13', '14']);
  });

  it('takes a counter that began anew as a reset once the next line confirms it', () => {
    const rows: Row[] = [
      [50_000, 10],
      [50_100, 10.1],
      [20, 12],
      [120, 12.1],
      [220, 12.2],
    ];
    expect(place(clockOf('ms'), rows)).toEqual(['10', '10.1', '-', '*12.1', '12.2']);
  });

  it('takes it at once when the line is trusted', () => {
    const rows: Row[] = [
      [50_000, 10],
      [20, 12],
      [120, 12.1],
    ];
    expect(place(clockOf('ms'), rows, 'checksum')).toEqual(['10', '*12', '12.1']);
  });

  it('takes it at once when a reset is expected', () => {
    const clock = clockOf('ms');
    expect(place(clock, [[50_000, 10]])).toEqual(['10']);
    clock.resetExpected = true;
    expect(
      place(clock, [
        [20, 12],
        [120, 12.1],
      ]),
    ).toEqual(['*12', '12.1']);
  });

  it('tells a reset close to the wrap from the wrap', () => {
    // Ten seconds before the wrap; two seconds later the counter stands at one second.
    const rows: Row[] = [
      [US_SPAN - 10e6, 100],
      [1e6, 102],
    ];
    expect(place(clockOf('us'), rows, 'checksum')).toEqual(['100', '*102']);
  });

  it('tells them apart by the sequence number where time alone could not', () => {
    const rows: Row[] = [
      [US_SPAN - 0.5e6, 100],
      [0.1e6, 100.7],
    ];
    expect(place(clockOf('us'), rows, 'checksum')).toEqual(['100', '100.6']);
    expect(place(clockOf('us'), rows, 'sequence')).toEqual(['100', '*100.7']);
  });

  it('tells a reset after a long silence from a wrap', () => {
    // Across the wrap it would be 694 s, but half an hour passed.
    const rows: Row[] = [
      [3600e6, 0],
      [0, 1800],
    ];
    expect(place(clockOf('us'), rows, 'checksum')).toEqual(['0', '*1800']);
  });

  it('refuses one line that leaps ahead of its arrival, and goes on', () => {
    const rows: Row[] = [
      [1000, 5],
      [11_100, 5.1],
      [1200, 5.2],
      [1300, 5.3],
    ];
    expect(place(clockOf('ms'), rows)).toEqual(['5', '-', '5.2', '5.3']);
  });

  it('refuses one line that falls back, and goes on', () => {
    const rows: Row[] = [
      [10_000, 5],
      [1010, 5.1],
      [10_200, 5.2],
      [10_300, 5.3],
    ];
    expect(place(clockOf('ms'), rows)).toEqual(['5', '-', '5.2', '5.3']);
  });

  it('refuses a time that repeats', () => {
    expect(
      place(
        clockOf('ms'),
        [
          [1000, 5],
          [1000, 5.1],
          [1001, 5.2],
        ],
        'checksum',
      ),
    ).toEqual(['5', '-', '5.001']);
  });

  it('follows a leap that lasts: the laptop slept and the board did not', () => {
    const rows: Row[] = [
      [1000, 5],
      [61_000, 5.1],
      [61_100, 5.2],
    ];
    expect(place(clockOf('ms'), rows)).toEqual(['5', '-', '*5.2']);
  });

  it('does not take a clock that runs 10 % fast for one that leaps', () => {
    const rows = Array.from({ length: 1000 }, (_, i): Row => [i * 1100, i]);
    expect(place(clockOf('ms'), rows)).not.toContain('-');
  });

  it('never goes back when a connection begins while its time is ahead of arrival', () => {
    const clock = clockOf('ms');
    expect(
      place(
        clock,
        Array.from({ length: 100 }, (_, i): Row => [i * 1050, i]),
      ).at(-1),
    ).toBe('103.95');
    releaseClock(clock);
    expect(placeDeviceTime(clock, 7, 101, 103.95, 'none')).toBe('placed');
    expect(clock.time_s).toBeCloseTo(103.951, 9);
  });

  it('does not wrap in seconds', () => {
    expect(
      place(clockOf('s'), [
        [4294967295.5, 1],
        [4294967296.5, 2],
      ]),
    ).toEqual(['1', '2']);
  });
});

describe('the time of something else', () => {
  it('is placed near the newest sample, before or after it, across the wrap too', () => {
    const clock = clockOf('us');
    expect(timeNear_s(clock, 5)).toBeNull();
    place(clock, [[US_SPAN - 1e6, 10]]);
    expect(timeNear_s(clock, US_SPAN - 3e6)).toBeCloseTo(8, 9);
    expect(timeNear_s(clock, 2e6)).toBeCloseTo(13, 9);
    expect(timeNear_s(clock, 2e9)).toBeNull();
  });
});

describe("a file's clock", () => {
  it('stands as it is', () => {
    const rows: Row[] = [
      [100, 0],
      [350, 0],
      [351, 0],
      [9_000_000, 0],
    ];
    expect(place(clockOf('ms', 'stream'), rows)).toEqual(['0.1', '0.35', '0.351', '9000']);
  });

  it('goes on across a wrap, but takes nothing else that falls back', () => {
    const rows: Row[] = [
      [US_SPAN - 100, 0],
      [900, 0],
      [800, 0],
      [1000, 0],
    ];
    expect(place(clockOf('ms', 'stream'), rows)).toEqual([
      '4294967.196',
      '4294968.196',
      '-',
      '4294968.296',
    ]);
    expect(
      place(clockOf('ms', 'stream'), [
        [3e9, 0],
        [5, 0],
      ]),
    ).toEqual(['3000000', '-']);
  });

  it('is moved as a whole when a later connection begins too early', () => {
    const clock = clockOf('s', 'stream');
    expect(
      place(clock, [
        [10, 0],
        [11, 0],
      ]),
    ).toEqual(['10', '11']);
    releaseClock(clock);
    expect(placeDeviceTime(clock, 0, 0, 11, 'none')).toBe('placed');
    expect(clock.time_s).toBeCloseTo(11.001, 9);
    expect(placeDeviceTime(clock, 1, 0, clock.time_s, 'none')).toBe('placed');
    expect(clock.time_s).toBeCloseTo(12.001, 9);
  });
});
