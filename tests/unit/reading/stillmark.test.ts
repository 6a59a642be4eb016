import { describe, expect, it } from 'vitest';
import { closeLink, configureReader, openLink } from '#core/reading/reader.ts';
import type { Frame } from '#protocol/frame.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';
import {
  announce,
  BOARD,
  channel,
  codesOf,
  configured,
  faultsOf,
  openReader,
  read,
  readAll,
  roundedTimesOf,
  sampleLine,
  timesOf,
} from './harness.ts';

const VOLTAGE = channel(1, 'voltage', 'mV', { scale: 5 });
const CURRENT = channel(2, 'current', 'mA', { scale: 0.5, zero: -12, gain: 1.25, offset: 0.25 });
const RIG = announce([VOLTAGE, CURRENT]);

describe('an announced board', () => {
  it('gives samples in SI by its scale, zero, gain and offset', () => {
    const readings = readAll(openReader(), [...RIG, sampleLine(0, 100, 300, 88)]);
    expect(readings.at(-1)?.sample).toEqual({
      time_s: 1.3,
      voltage_V: 1.5,
      // 1.25 · 0.5 · (88 + 12) + 0.25 = 62.75 mA
      current_A: 0.06275,
      windSpeed_mps: null,
      rotorSpeed_radps: null,
    });
    expect(faultsOf(readings)).toEqual([]);
  });

  it('is calibrated by the operator on top of its own calibration', () => {
    const reader = openReader({}, { calibration: { voltage_V: { gain: 2, offset: 1 } } });
    readAll(reader, RIG);
    expect(read(reader, sampleLine(0, 100, 300, 88)).sample?.voltage_V).toBe(4);
    configureReader(reader, configured({}));
    expect(read(reader, sampleLine(1, 200, 300, 88), 1.1).sample?.voltage_V).toBe(1.5);
  });

  it('has missing readings counted and never shown as zero', () => {
    const readings = readAll(openReader(), [
      ...RIG,
      sampleLine(0, 100, null, 88),
      sampleLine(1, 200, null, null),
    ]);
    expect(readings.at(-2)).toMatchObject({ faults: ['notFinite'], sample: { voltage_V: null } });
    expect(readings.at(-1)).toMatchObject({ faults: ['notFinite', 'notFinite'], sample: null });
  });

  it('is read from the very first line, however the stream was cut', () => {
    const reader = openReader({ wholeFromStart: false });
    const tail = sampleLine(6, 600, 300, 88).slice(5);
    const readings = readAll(reader, [tail, ...RIG, sampleLine(7, 700, 300, 88)]);
    expect(readings[0]?.faults).toEqual([]);
    expect(readings.at(-1)?.sample).not.toBeNull();
    const whole = openReader({ wholeFromStart: false });
    expect(readAll(whole, [...RIG, sampleLine(7, 700, 300, 88)]).at(-1)?.sample).not.toBeNull();
  });

  it('never gives a sample from a line with a wrong checksum', () => {
    const damaged = sampleLine(0, 100, 300, 88).replace('300', '301');
    expect(readAll(openReader(), [...RIG, damaged]).at(-1)).toMatchObject({
      sample: null,
      faults: ['checksum'],
    });
  });

  it('never gives a sample from plain lines', () => {
    const readings = readAll(openReader(), [...RIG, '300,88', 'debug: 300', 'ready']);
    expect(faultsOf(readings)).toEqual(['malformed', 'malformed', 'malformed']);
    expect(timesOf(readings)).toEqual([]);
  });

  it('has its fields counted', () => {
    expect(readAll(openReader(), [...RIG, sampleLine(0, 100, 300)]).at(-1)?.faults).toEqual([
      'fieldCount',
    ]);
  });

  it('has lost lines counted, across the wrap too', () => {
    const lines = [65_534, 65_535, 1, 2].map((sequence, i) =>
      sampleLine(sequence, 100 + i, 300, 88),
    );
    const readings = readAll(openReader(), [...RIG, ...lines]);
    expect(readings.slice(RIG.length).map(({ lostLines }) => lostLines)).toEqual([0, 0, 1, 0]);
    expect(faultsOf(readings)).toEqual(['sequenceGap']);
  });
});

describe('an announcement', () => {
  it('counts only once it is whole', () => {
    const reader = openReader();
    const [opening = '', first = '', second = ''] = RIG;
    readAll(reader, [opening, first]);
    expect(read(reader, sampleLine(0, 100, 300, 88))).toMatchObject({ sample: null, faults: [] });
    expect(reader.unmapped).toBe(true);
    read(reader, second);
    expect(reader.unmapped).toBe(false);
    expect(read(reader, sampleLine(1, 200, 300, 88)).sample).not.toBeNull();
  });

  it('again, the same, changes nothing', () => {
    const again = announce([VOLTAGE, CURRENT], 'again');
    const readings = readAll(openReader(), [
      ...RIG,
      sampleLine(0, 100, 1, 1),
      ...again,
      sampleLine(1, 600, 1, 1),
    ]);
    expect(readings.some(({ restarted }) => restarted)).toBe(false);
    expect(roundedTimesOf(readings)).toEqual([1.3, 1.8]);
  });

  it('with another scale breaks what was off', () => {
    const again = announce([{ ...VOLTAGE, zero: 7 }, CURRENT], 'again');
    const readings = readAll(openReader(), [
      ...RIG,
      sampleLine(0, 100, 300, 1),
      ...again,
      sampleLine(1, 600, 300, 1),
    ]);
    expect(readings.filter(({ restarted }) => restarted)).toHaveLength(1);
    expect(readings.at(-1)?.sample?.voltage_V).toBeCloseTo(1.465, 12);
  });

  it('whose opening was lost is left for the next one', () => {
    const other = announce([{ ...VOLTAGE, scale: 10 }, CURRENT], 'again').slice(1);
    const readings = readAll(openReader(), [...RIG, ...other, sampleLine(0, 100, 300, 1)]);
    expect(readings.at(-1)?.sample?.voltage_V).toBe(1.5);
  });

  it('after a boot is a restart, once', () => {
    const readings = readAll(openReader(), [
      ...RIG,
      sampleLine(0, 100, 1, 1),
      ...RIG,
      sampleLine(0, 90, 1, 1),
    ]);
    expect(readings.map(({ restarted }) => restarted).filter(Boolean)).toHaveLength(1);
    expect(readings.at(-1)).toMatchObject({ faults: [], lostLines: 0, sample: { time_s: 1.7 } });
  });

  it('after a boot makes the old one void until it is whole', () => {
    const readings = readAll(openReader(), [
      ...RIG,
      sampleLine(0, 100, 1, 1),
      RIG[0] ?? '',
      sampleLine(0, 90, 1, 1),
    ]);
    expect(readings.at(-1)?.sample).toBeNull();
  });

  it('holds when the board returns', () => {
    const reader = openReader();
    readAll(reader, [...RIG, sampleLine(0, 100, 300, 1)]);
    closeLink(reader);
    openLink(reader, { ...BOARD, wholeFromStart: false }, 5);
    expect(read(reader, sampleLine(90, 9000, 300, 1), 5).sample).toMatchObject({
      time_s: 5,
      voltage_V: 1.5,
    });
  });

  it('of a plain sketch on the same board replaces it', () => {
    const reader = openReader();
    readAll(reader, RIG);
    closeLink(reader);
    openLink(reader, BOARD, 5);
    expect(readAll(reader, ['1,2'], { from_s: 5 })[0]?.faults).toEqual([]);
    expect(reader.unmapped).toBe(true);
    expect(readAll(reader, ['voltage_V', '1.5'], { from_s: 6 })[1]?.sample?.voltage_V).toBe(1.5);
  });

  it("tells the board's identity, pace and channels", () => {
    const reader = openReader();
    const identity: Frame = {
      kind: 'identity',
      maker: 'Own workshop',
      model: 'bench',
      serial: '7',
      firmware: '1',
    };
    const pace: Frame = { kind: 'pace', period_us: 10_000, shortest_us: 1000, longest_us: 200_000 };
    readAll(reader, [...RIG, formatFrame(identity), formatFrame(pace)]);
    expect(reader.facts).toEqual({
      identity,
      pace,
      announcement: { timeUnit: 'ms', channels: [VOLTAGE, CURRENT] },
    });
    expect(reader.samplePeriod_s).toBe(0.01);
  });

  it.each([
    ['channel-unknown', channel(1, 'brightness', 'lux')],
    ['channel-unit', channel(1, 'voltage', 'kV')],
    ['channel-scale', channel(1, 'voltage', 'V', { scale: 0 })],
    ['channel-scale', channel(1, 'voltage', 'V', { gain: 0 })],
    ['channel-scale', channel(1, 'wind', 'mps', { scale: -0.01 })],
    ['channel-scale', channel(1, 'windPulses', 'count', { scale: -1 })],
    // Volts announced where millivolts were meant.
    ['channel-scale', channel(1, 'voltage', 'V', { scale: 19.55 })],
    ['channel-scale', channel(1, 'rotor', 'rpm', { scale: 2000 })],
  ])('that makes no sense is told what to change (%s)', (code, first) => {
    const readings = readAll(openReader(), [
      ...announce([first, CURRENT]),
      sampleLine(0, 1, 100, 88),
    ]);
    expect(codesOf(readings)).toEqual([code]);
    expect(readings.at(-1)?.sample).toMatchObject({ voltage_V: null, current_A: 0.06275 });
  });

  it('may turn a reading round, and be as coarse as whole metres a second', () => {
    const fine = [
      channel(1, 'voltage', 'V', { scale: -0.005 }),
      channel(2, 'wind', 'mps', { scale: 1 }),
      channel(3, 'rotor', 'rpm', { scale: 60 }),
    ];
    expect(codesOf(readAll(openReader(), announce(fine)))).toEqual([]);
  });

  it('that does not come is asked for after 12 s, once', () => {
    const lines = Array.from({ length: 300 }, (_, i) => sampleLine(i, i * 100, 1, 1));
    const readings = readAll(openReader(), lines);
    expect(codesOf(readings)).toEqual(['no-announcement']);
    // A board that announces itself every 10 s, as it must, is never told so.
    expect(codesOf(readings.slice(0, 121))).toEqual([]);
  });

  it('of fewer channels than the samples have is told so', () => {
    const readings = readAll(openReader(), [...RIG, sampleLine(0, 100, 1, 2, 3)]);
    expect(codesOf(readings)).toEqual(['samples-misfit']);
    expect(readings.at(-1)).toMatchObject({ sample: null, faults: ['fieldCount'] });
  });

  it('in another version of the grammar is told so, and nothing is read', () => {
    const foreign = formatFrame({ kind: 'foreign', version: 2 });
    const readings = readAll(openReader(), [foreign, foreign, sampleLine(0, 1, 1, 1)]);
    expect(codesOf(readings)).toEqual(['board-version']);
    expect(readings.at(-1)).toMatchObject({ sample: null, faults: ['malformed'] });
  });

  it('of pulses is turned into wind speed', () => {
    const reader = openReader({}, { windPerPulseRate_m: 0.5 });
    const lines = Array.from({ length: 40 }, (_, i) => sampleLine(i, i * 100, i));
    const readings = readAll(reader, [...announce([channel(1, 'windPulses', 'count')]), ...lines]);
    expect(readings.at(-1)?.sample?.windSpeed_mps).toBeCloseTo(5, 9);
  });
});

describe('a reset', () => {
  it('is seen by a sample alone, at once', () => {
    const readings = readAll(openReader(), [
      ...RIG,
      [sampleLine(500, 60_000, 1, 1), 10],
      [sampleLine(501, 60_100, 1, 1), 10.1],
      [sampleLine(3, 40, 1, 1), 11.6],
    ]);
    expect(readings.at(-1)).toMatchObject({ restarted: true, faults: [], lostLines: 0 });
    expect(roundedTimesOf(readings)).toEqual([10, 10.1, 11.6]);
  });

  it('is not a wrap of the clock', () => {
    const wrap = 2 ** 32;
    const lines = [wrap - 200_000, wrap - 100_000, 0, 100_000].map((time, i) =>
      sampleLine(i, time, 1, 1),
    );
    const readings = readAll(openReader(), [
      ...announce([VOLTAGE, CURRENT], 'boot', 'us'),
      ...lines,
    ]);
    expect(readings.some(({ restarted }) => restarted)).toBe(false);
    // The counter stands at wrap - 0.2 s, wrap - 0.1 s, 0, 0.1 s.
    expect(roundedTimesOf(readings)).toEqual([1.3, 1.4, 1.5, 1.6].map((s) => expect.closeTo(s, 3)));
  });
});

describe('a button', () => {
  const press = (number: number, time: number): string =>
    formatFrame({ kind: 'button', number, time, button: 'log' });

  it("is told once, with the time on the board's clock", () => {
    const readings = readAll(openReader(), [
      ...RIG,
      [sampleLine(0, 1000, 1, 1), 5],
      [press(0, 1250), 9],
      [press(0, 1250), 9],
    ]);
    expect(readings.map(({ boardEvent }) => boardEvent).filter((event) => event !== null)).toEqual([
      { button: 'log', time_s: 5.25 },
    ]);
  });

  it('has its arrival for a time when the clock is not known', () => {
    expect(read(openReader(), press(0, 1250), 3).boardEvent).toEqual({ button: 'log', time_s: 3 });
  });

  it('counts again after a boot', () => {
    const reader = openReader();
    const readings = readAll(reader, [press(0, 10), ...RIG, press(0, 10)]);
    expect(readings.filter(({ boardEvent }) => boardEvent !== null)).toHaveLength(2);
  });
});

describe('troubles', () => {
  const over = formatFrame({ kind: 'trouble', channel: 2, trouble: 'over' });

  it('are told in words, and not again while they last', () => {
    const readings = readAll(openReader(), [...RIG, [over, 2], [over, 3], [over, 12]]);
    expect(codesOf(readings)).toEqual(['board-over']);
    expect(readings[3]?.notices[0]?.message).toContain('channel 2 (current)');
  });

  it('are over when not reported for 10 s, and told again when they return', () => {
    const beat = formatFrame({ kind: 'beat', time: 5 });
    const lines: [string, number][] = [[over, 2], [over, 3], [beat, 12.9], [beat, 13], [over, 20]];
    const [first, , , fourth, fifth] = readAll(openReader(), lines);
    const [told] = first?.notices ?? [];
    expect(fourth?.notices).toEqual([{ ...told, isOver: true }]);
    expect(fifth?.notices).toEqual([told]);
  });

  it('are over with the connection', () => {
    const reader = openReader();
    const [told] = read(reader, over, 2).notices;
    closeLink(reader);
    openLink(reader, BOARD, 4);
    expect(read(reader, formatFrame({ kind: 'beat', time: 5 }), 5).notices).toEqual([
      { ...told, isOver: true },
    ]);
  });

  it('of the board itself need no channel', () => {
    const reading = read(
      openReader(),
      formatFrame({ kind: 'trouble', channel: 0, trouble: 'supply' }),
    );
    expect(reading.notices[0]?.message).toMatch(/^The board reports for the board: the supply/);
  });

  it('and beats are no faults', () => {
    const beat = formatFrame({ kind: 'beat', time: 5 });
    expect(faultsOf(readAll(openReader(), [beat, over, ...RIG, beat]))).toEqual([]);
  });
});
