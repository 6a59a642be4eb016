import { describe, expect, it } from 'vitest';
import { columnNamed } from '#protocol/plain-header.ts';
import { closeLink, configureReader, openLink } from '#core/reading/reader.ts';
import { COLUMN_NAMES, columnsObstacle, unnamedFields } from '#core/reading/unnamed.ts';
import {
  BOARD,
  codesOf,
  configured,
  faultsOf,
  openReader,
  read,
  readAll,
  timesOf,
} from './harness.ts';

describe('a header and its lines', () => {
  it('give samples in SI, with what is missing as null', () => {
    const reader = openReader();
    const readings = readAll(reader, [
      'voltage_mV,current_uA,wind_kmph,rotor_rpm',
      '1500,2500,36,60',
      '-250,nan,,ovf',
    ]);
    expect(readings[1]?.sample).toEqual({
      time_s: 1.1,
      voltage_V: 1.5,
      current_A: 0.0025,
      windSpeed_mps: 10,
      rotorSpeed_radps: expect.closeTo(2 * Math.PI, 12),
    });
    expect(readings[2]?.sample).toEqual({
      time_s: 1.2,
      voltage_V: -0.25,
      current_A: null,
      windSpeed_mps: null,
      rotorSpeed_radps: null,
    });
    expect(readings[2]?.faults).toEqual(['notFinite', 'notFinite', 'notFinite']);
  });

  it('convert miles per hour as NIST SP 811 says (1 mi/h = 0.447 04 m/s exactly)', () => {
    const [, reading] = readAll(openReader(), ['wind_mph', '100']);
    expect(reading?.sample?.windSpeed_mps).toBeCloseTo(44.704, 12);
  });

  it('leave channels without a column missing, without counting that', () => {
    const [, reading] = readAll(openReader(), ['voltage_V', '0']);
    expect(reading).toMatchObject({
      faults: [],
      sample: { voltage_V: 0, current_A: null, windSpeed_mps: null, rotorSpeed_radps: null },
    });
  });

  it('give no sample where every reading is missing', () => {
    const [, reading] = readAll(openReader(), ['voltage_V,current_A', 'nan,']);
    expect(reading).toMatchObject({ sample: null, faults: ['notFinite', 'notFinite'] });
  });

  it('pass over columns that are not ours, whatever is in them, and say so', () => {
    const readings = readAll(openReader(), ['fan_duty,voltage_V,note', '12abc,1.5,two words']);
    expect(readings[1]?.sample?.voltage_V).toBe(1.5);
    expect(readings[0]?.notices.map(({ message }) => message)).toEqual([
      'Left out, because nothing here reads them: fan_duty, note.',
    ]);
  });

  it('say which units a column may have', () => {
    const [reading] = readAll(openReader(), ['voltage_V,current_ma,time']);
    expect(reading?.notices.map(({ code }) => code)).toEqual(['column-unit', 'column-unit']);
    expect(reading?.notices[0]?.message).toContain('_A, _mA, _uA');
    expect(reading?.notices[1]?.message).toContain('_us, _ms, _s');
  });

  it('never have more to say than a page can hold', () => {
    const headers = Array.from({ length: 500 }, (_, i) => `voltage_V,c${i}_x`);
    expect(codesOf(readAll(openReader(), headers))).toHaveLength(50);
  });

  it('read neither of two columns that give the same quantity', () => {
    const readings = readAll(openReader(), ['voltage_V,voltage_mV,current_A', '1,2000,3']);
    expect(codesOf(readings)).toEqual(['column-twice']);
    expect(readings[1]?.sample).toMatchObject({ voltage_V: null, current_A: 3 });
  });

  it('take readings that the quantity can not have as missing', () => {
    const [, reading] = readAll(openReader(), ['voltage_V,current_A,wind_mps', '1,1e9,-20']);
    expect(reading).toMatchObject({
      faults: ['outOfRange', 'outOfRange'],
      sample: { voltage_V: 1, current_A: null, windSpeed_mps: null },
    });
  });

  it.each(['12abc,1', '1.2.3,1', '1', '1,2,3', '1;2', 'boot ok', '1,5 2,5', '--,1', '5.,1'])(
    'give no sample for "%s"',
    (line) => {
      const [, reading] = readAll(openReader(), ['voltage_V,current_A', line]);
      expect(reading?.sample).toBeNull();
      expect(reading?.faults).toHaveLength(1);
    },
  );

  it('ignore blank lines', () => {
    expect(read(openReader(), '  ')).toMatchObject({ sample: null, faults: [] });
  });

  it('say what is wrong with a decimal comma, once', () => {
    const readings = readAll(openReader(), ['voltage_V;current_A', '1,5;2,5', '1,5;2,5']);
    expect(codesOf(readings)).toEqual(['decimal-comma']);
    expect(faultsOf(readings)).toEqual(['malformed', 'malformed']);
  });
});

describe('lines without a header', () => {
  it('are unmapped, and no fault', () => {
    const reader = openReader();
    expect(readAll(reader, ['1.5,2', '1.5,2'])).toMatchObject([
      { faults: [] },
      { sample: null, faults: [] },
    ]);
    expect(reader.unmapped).toBe(true);
    readAll(reader, ['voltage_V,current_A']);
    expect(reader.unmapped).toBe(false);
  });

  it('are faults when they are not numbers', () => {
    const reader = openReader();
    expect(faultsOf(readAll(reader, ['hello', 'rst cause 2']))).toEqual(['malformed', 'malformed']);
    expect(reader.unmapped).toBe(false);
  });

  it.each(['10;1.5;2', '10,1.5,2', '10\t1.5\t2', '10 1.5 2'])(
    'can be mapped by the configuration: %s',
    (line) => {
      const reader = openReader({}, { columns: ['time_ms', 'voltage_V', 'current_mA'] });
      expect(read(reader, line).sample).toMatchObject({ voltage_V: 1.5, current_A: 0.002 });
    },
  );

  it('can be mapped at any time', () => {
    const reader = openReader();
    readAll(reader, ['1.5,2']);
    configureReader(reader, configured({ columns: ['voltage_V', '-'] }));
    expect(reader.unmapped).toBe(false);
    const reading = read(reader, '1.5,2', 2);
    expect(reading.sample).toMatchObject({ voltage_V: 1.5, current_A: null });
    expect(codesOf([reading])).toEqual(['column-ignored']);
    configureReader(reader, configured({}));
    expect(read(reader, '1.5,2', 3).sample).toBeNull();
  });

  it('say when the configured columns do not fit, and ask again which number is what', () => {
    const reader = openReader({}, { columns: ['voltage_V', 'current_A'] });
    const readings = readAll(reader, Array<string>(12).fill('1,2,3'));
    expect(codesOf(readings)).toEqual(['columns-misfit']);
    expect(faultsOf(readings)).toEqual(Array(10).fill('fieldCount'));
    expect([reader.unmapped, unnamedFields(reader)]).toEqual([true, ['1', '2', '3']]);
  });

  it('show the fields of the newest one, until they are named', () => {
    const reader = openReader();
    expect(unnamedFields(reader)).toBeNull();
    readAll(reader, ['20; 1.5;nan', '40; 1.6;nan']);
    expect(unnamedFields(reader)).toEqual(['40', '1.6', 'nan']);
    configureReader(reader, configured({ columns: ['time_ms', 'voltage_V', ''] }));
    expect(unnamedFields(reader)).toBeNull();
    const reading = read(reader, '60; 1.7;nan', 2);
    expect(reading.sample).toMatchObject({ voltage_V: 1.7, current_A: null });
    expect(codesOf([reading])).toEqual([]);
  });

  it.each([
    [['voltage_V', 'current_mA'], null],
    [['', 'wind_mps'], null],
    [['', ''], /at least which number is the voltage/],
    [['time_ms', 'seq'], /at least which number is the voltage/],
    [['voltage_V', 'voltage_mV'], /can’t be the same quantity/],
    [['time_ms', 'time_s', 'voltage_V'], /Only one number can be the time/],
    [['seq', 'seq', 'voltage_V'], /Only one number can count the lines/],
  ] as const)('named %j: what stands in the way', (names, wanted) => {
    const obstacle = columnsObstacle(names, configured({}));
    if (wanted === null) expect(obstacle).toBeNull();
    else expect(obstacle?.message).toMatch(wanted);
  });

  it('have names that are all understood', () => {
    const roles = COLUMN_NAMES.map((name) => columnNamed(name).role);
    expect(roles.filter((role) => role === 'ignored')).toHaveLength(1);
    expect(roles[0]).toBe('ignored');
  });
});

describe('opening in mid-stream', () => {
  const cut = { wholeFromStart: false };

  it('never takes the first line as data', () => {
    const reader = openReader(cut, { columns: ['voltage_V', 'current_A'] });
    const readings = readAll(reader, ['23,4.5', '1.23,4.5']);
    expect(readings[0]).toMatchObject({ sample: null, faults: [] });
    expect(readings[1]?.sample).toMatchObject({ voltage_V: 1.23 });
  });

  it('takes a header as first line only if every column is known', () => {
    expect(readAll(openReader(cut), ['voltage_V,current_A', '1,2'])[1]?.sample).not.toBeNull();
    // The tail of time_ms,voltage_V,current_A.
    const reader = openReader(cut);
    expect(readAll(reader, ['ms,voltage_V,current_A', '10,1,2'])[1]?.sample).toBeNull();
    expect(reader.unmapped).toBe(true);
  });

  it('forgets a header that lost whole columns, and says so', () => {
    const reader = openReader(cut);
    const lines = Array.from({ length: 10 }, (_, i) => `${i},1.5,100,4.2`);
    const readings = readAll(reader, ['current_mA,wind_mps', ...lines, '10,1.5,100,4.2']);
    expect(timesOf(readings)).toEqual([]);
    expect(faultsOf(readings)).toEqual(Array(10).fill('fieldCount'));
    expect(codesOf(readings)).toEqual(['columns-misfit']);
    expect(reader.unmapped).toBe(true);
  });

  it('keeps a header once a line has fitted it, whatever comes', () => {
    const reader = openReader();
    readAll(reader, ['voltage_V,current_A', '1,2', ...Array<string>(50).fill('1,2,3')]);
    expect(read(reader, '1,2', 9).sample).not.toBeNull();
  });
});

describe('a board that returns', () => {
  it('is read as before without another header', () => {
    const reader = openReader();
    readAll(reader, ['voltage_V,current_A', '1,2']);
    closeLink(reader);
    openLink(reader, { ...BOARD, wholeFromStart: false }, 5);
    const readings = readAll(reader, ['2', '3,4'], { from_s: 5 });
    expect(readings).toMatchObject([
      { sample: null, faults: [] },
      { sample: { voltage_V: 3, current_A: 4 }, restarted: false },
    ]);
  });

  it('is not read as before when its lines have other fields', () => {
    const reader = openReader();
    readAll(reader, ['voltage_V,current_A', '1,2']);
    closeLink(reader);
    openLink(reader, BOARD, 5);
    const readings = readAll(reader, Array<string>(11).fill('1,2,3'), { from_s: 5 });
    expect(timesOf(readings)).toEqual([]);
    expect(codesOf(readings)).toEqual(['columns-misfit']);
    expect(reader.unmapped).toBe(true);
  });

  it('is another board when its identity differs', () => {
    const reader = openReader();
    readAll(reader, ['voltage_V,current_A', '1,2']);
    closeLink(reader);
    openLink(reader, { ...BOARD, id: 'usb:0001:0002:B' }, 5);
    expect(read(reader, '3,4', 5).sample).toBeNull();
    expect(reader.unmapped).toBe(true);
  });
});

describe('a header again', () => {
  it('is a reset where nothing else could tell', () => {
    const reader = openReader();
    const readings = readAll(reader, ['voltage_V', '1', 'voltage_V', '1']);
    expect(readings.map(({ restarted }) => restarted)).toEqual([false, false, true, false]);
  });

  it('is pointed out when it comes again and again', () => {
    const readings = readAll(
      openReader(),
      Array.from({ length: 10 }, (_, i) => (i % 2 ? '1' : 'voltage_V')),
    );
    expect(codesOf(readings)).toEqual(['header-repeated']);
  });

  it('is none while the device clock goes on', () => {
    const readings = readAll(openReader(), [
      'time_ms,voltage_V',
      '100,1',
      '200,1',
      'time_ms,voltage_V',
      '300,1',
    ]);
    expect(readings.some(({ restarted }) => restarted)).toBe(false);
  });

  it('lets the very next line show the reset that the device clock tells', () => {
    const readings = readAll(openReader(), [
      'time_ms,voltage_V',
      ['60000,1', 2],
      ['60100,1', 2.1],
      ['time_ms,voltage_V', 3],
      ['12,1', 3.1],
    ]);
    expect(readings.map(({ restarted }) => restarted)).toEqual([false, false, false, false, true]);
    expect(readings[4]?.sample?.time_s).toBe(3.1);
  });

  it('with other columns replaces the first', () => {
    const readings = readAll(openReader(), ['voltage_V', '1', 'current_A', '2']);
    expect(readings[2]?.restarted).toBe(true);
    expect(readings[3]?.sample).toMatchObject({ voltage_V: null, current_A: 2 });
  });
});

describe('sequence numbers', () => {
  it('tell how many lines were lost', () => {
    const readings = readAll(openReader(), ['seq,voltage_V', '1,1', '2,1', '5,1', '6,1']);
    expect(readings.map(({ lostLines }) => lostLines)).toEqual([0, 0, 0, 2, 0]);
    expect(faultsOf(readings)).toEqual(['sequenceGap']);
    expect(timesOf(readings)).toHaveLength(4);
  });

  it.each([2 ** 16, 2 ** 32])('go on across a wrap at %i', (span) => {
    const readings = readAll(openReader(), ['seq,voltage_V', `${span - 1},1`, '0,1', '3,1']);
    expect(readings.map(({ lostLines }) => lostLines)).toEqual([0, 0, 0, 2]);
    expect(readings.some(({ restarted }) => restarted)).toBe(false);
  });

  it('that begin anew mean a reset where there is no clock', () => {
    const readings = readAll(openReader(), ['seq,voltage_V', '500,1', '501,1', '0,1']);
    expect(readings.map(({ restarted }) => restarted)).toEqual([false, false, false, true]);
    expect(faultsOf(readings)).toEqual([]);
  });

  it('that jump while the clock goes on are a gap of unknown size', () => {
    const readings = readAll(openReader(), ['seq,time_ms,voltage_V', '500,100,1', '3,200,1']);
    expect(readings[2]).toMatchObject({ restarted: false, lostLines: 0, faults: ['sequenceGap'] });
  });

  it('and time that begin anew together are a reset at once', () => {
    const readings = readAll(openReader(), [
      'seq,time_ms,voltage_V',
      '500,60000,1',
      '501,60100,1',
      '0,7,1',
    ]);
    expect(readings[3]).toMatchObject({ restarted: true, faults: [], lostLines: 0 });
    expect(readings[3]?.sample).not.toBeNull();
  });

  it.each(['-1', '1.5', 'nan'])(
    'that are no counts (%s) are counted, and the reading kept',
    (value) => {
      const [, reading] = readAll(openReader(), ['seq,voltage_V', `${value},1`]);
      expect(reading?.faults).toHaveLength(1);
      expect(reading?.sample?.voltage_V).toBe(1);
    },
  );
});

describe('calibration', () => {
  it("is the operator's gain and offset in SI", () => {
    const reader = openReader({}, { calibration: { voltage_V: { gain: 2, offset: -0.5 } } });
    const readings = readAll(reader, ['voltage_mV,current_A', '1500,1']);
    expect(readings[1]?.sample).toMatchObject({ voltage_V: 2.5, current_A: 1 });
  });

  it('can change while lines come', () => {
    const reader = openReader();
    readAll(reader, ['voltage_V', '1']);
    configureReader(reader, configured({ calibration: { voltage_V: { gain: 3, offset: 0 } } }));
    expect(read(reader, '1', 2).sample?.voltage_V).toBe(3);
  });
});

describe('pulses', () => {
  it('need a setting, and say so', () => {
    const readings = readAll(openReader(), ['voltage_V,pulses_count', '1,5']);
    expect(codesOf(readings)).toEqual(['pulses-unset']);
    expect(readings[1]?.sample).toMatchObject({ voltage_V: 1, windSpeed_mps: null });
  });

  it('that could be either are not guessed', () => {
    const both = { windPerPulseRate_m: 0.5, pulsesPerTurn: 2 };
    expect(codesOf(readAll(openReader({}, both), ['pulses_count,voltage_V', '1,1']))).toEqual([
      'pulses-ambiguous',
    ]);
    expect(
      codesOf(readAll(openReader({}, both), ['windPulses_count,rotorPulses_count', '1,1'])),
    ).toEqual([]);
  });

  it('become wind and rotor speed', () => {
    const reader = openReader({}, { windPerPulseRate_m: 0.5, pulsesPerTurn: 2 });
    const lines = Array.from(
      { length: 40 },
      (_, i) => `${i * 100},${i},${65_530 + 2 * i - (i > 2 ? 65_536 : 0)}`,
    );
    const readings = readAll(reader, ['time_ms,windPulses_count,rotorPulses_count', ...lines]);
    // Ten and twenty pulses a second.
    expect(readings.at(-1)?.sample?.windSpeed_mps).toBeCloseTo(5, 9);
    expect(readings.at(-1)?.sample?.rotorSpeed_radps).toBeCloseTo(20 * Math.PI, 9);
    expect(faultsOf(readings)).toEqual([]);
  });
});

describe('a file', () => {
  const file = { clock: 'stream', source: 'replay' } as const;

  it('gives its own times exactly', () => {
    const times = ['0.1', '0.30000000000000004', '12.7', '1e3'];
    const readings = readAll(
      openReader(file),
      ['time_s,voltage_V', ...times.map((time) => `${time},1`)],
      { period_s: 0 },
    );
    expect(timesOf(readings)).toEqual(times.map(Number));
  });

  it('may begin before zero', () => {
    expect(timesOf(readAll(openReader(file), ['time_s,voltage_V', '-2,1', '-1,1', '0,1']))).toEqual(
      [-2, -1, 0],
    );
  });

  it('counts rows whose time does not increase, and names the first', () => {
    const readings = readAll(openReader(file), [
      'time_s,voltage_V',
      '1,1',
      '1,1',
      '0.5,1',
      '2,1',
      '2,1',
    ]);
    expect(timesOf(readings)).toEqual([1, 2]);
    expect(faultsOf(readings)).toEqual(['outOfRange', 'outOfRange', 'outOfRange']);
    expect(codesOf(readings)).toEqual(['time-back']);
  });

  it("can't be read without times", () => {
    const readings = readAll(openReader(file), ['voltage_V', '1']);
    expect(codesOf(readings)).toEqual(['no-time-column']);
    expect(timesOf(readings)).toEqual([]);
  });

  it('counts a row without a time', () => {
    const [, reading] = readAll(openReader(file), ['time_s,voltage_V', ',1']);
    expect(reading).toMatchObject({ sample: null, faults: ['notFinite'] });
  });

  it('knows its median step', () => {
    const reader = openReader(file);
    readAll(reader, ['time_s,voltage_V', ...Array.from({ length: 40 }, (_, i) => `${i / 50},1`)], {
      period_s: 0,
    });
    expect(reader.samplePeriod_s).toBeCloseTo(0.02, 12);
    expect(reader.clockDrift_ppm).toBeNull();
  });
});
