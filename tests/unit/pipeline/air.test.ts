/** What a board says of the air is kept when a trial is logged, and counts before what was typed. */
import { describe, expect, it } from 'vitest';
import { coefficientToTell } from '#core/experiment/budget/answer.ts';
import { saidOrHeard, withHeardAir } from '#core/experiment/budget/known-air.ts';
import type { Input } from '#core/inputs.ts';
import { begin } from '#core/pipeline/state.ts';
import { step } from '#core/pipeline/step.ts';
import { airHeard } from '#core/reading/air-heard.ts';
import { createReader, openLink, readLine } from '#core/reading/reader.ts';
import { DEFAULT_CONFIGURATION } from '#core/configuration.ts';
import { freshHead } from '#core/recording.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';
import { script } from '../../support/bench-script.ts';
import { ROTOR_AND_AIR } from '../../support/budgets.ts';

function play(inputs: readonly Input[]) {
  let state = begin(freshHead('board'), 1);
  for (const input of inputs) state = step(state, input).state;
  return state;
}

/** Two logged levels, each line with `air` behind the readings of wind, voltage and current. */
function lesson(columns: string, air: (line: number) => string) {
  const { inputs } = script().open().level(0, 2).level(2.4, 16).level(0, 4).level(2, 16).level(0, 4).close('ended');
  return inputs.map((input, at): Input => {
    if (input.kind !== 'line') return input;
    return { ...input, text: `${input.text},${input.text.startsWith('voltage') ? columns : air(at)}` };
  });
}

describe('plain lines with columns of the air', () => {
  const COLUMNS = 'temperature_degC,pressure_hPa,humidity_pct';

  it('are looked up when a trial is logged, in SI', () => {
    const { conductor, book } = play(lesson(COLUMNS, () => '24.5,962.1,61'));
    expect(book.trials).toHaveLength(2);
    expect(conductor.ledger.airs).toEqual([
      { recordingId: 1, temperature_degC: 24.5, pressure_Pa: 96_210, relativeHumidity: 0.61 },
    ]);
    const told = (airs: typeof conductor.ledger.airs) =>
      coefficientToTell(book.trials[0]!, { instruments: [], rotorAndAir: ROTOR_AND_AIR, airs })!.value;
    // 20 °C and 1013.25 hPa were typed: the board's air is lighter, by what an ideal gas says.
    const lighter = ((96_210 / 101_325) * 293.15) / 297.65;
    expect(Math.abs((told([]) / told(conductor.ledger.airs)) / lighter - 1)).toBeLessThan(0.005);
  });

  it('change no trial, whatever they hold', () => {
    const usual = play(lesson(COLUMNS, () => '24.5,962.1,61')).book.trials;
    expect(play(lesson(COLUMNS, (at) => (at % 2 === 0 ? 'nan,oops,' : '24.5,,-3'))).book.trials).toEqual(usual);
  });

  it('that hold what air can’t be are not taken, and the last good word stays', () => {
    const half = play(lesson(COLUMNS, (at) => (at < 1200 ? '24.5,962.1,61' : '-127,0,nan')));
    expect(half.conductor.ledger.airs).toEqual([
      { recordingId: 1, temperature_degC: 24.5, pressure_Pa: 96_210, relativeHumidity: 0.61 },
    ]);
    expect(play(lesson(COLUMNS, () => '-127,0,nan')).conductor.ledger.airs).toEqual([]);
  });
});

it('Stillmark lines: by what the channel announced', () => {
  const reader = createReader(DEFAULT_CONFIGURATION);
  openLink(reader, { source: 'serial', id: 'b', name: 'B', clock: 'arrival', wholeFromStart: true }, 0);
  const channel = (number: number, quantity: string, unit: string, scale: number) =>
    formatFrame({
      kind: 'channel', number, quantity, unit, scale, zero: 0, gain: 1, offset: 0,
      gainUncertainty: null, offsetUncertainty: null,
    });
  const lines = [
    formatFrame({ kind: 'opening', cause: 'boot', timeUnit: 'us', channelCount: 2 }),
    channel(1, 'voltage', 'mV', 4),
    channel(2, 'temperature', 'degC', 0.01),
    formatFrame({ kind: 'sample', sequence: 1, time: 1000, counts: [500, 2315] }),
  ];
  for (const line of lines) readLine(reader, line, 0.1);
  expect(airHeard(reader, lines.at(-1)!)).toEqual({
    temperature_degC: expect.closeTo(23.15, 9) as number, pressure_Pa: null, relativeHumidity: null,
  });
});

describe('what is known of the air', () => {
  const NOTHING = { temperature_degC: null, pressure_Pa: null, relativeHumidity: null };

  it('is one entry a recording, and the same list where nothing is new', () => {
    const first = withHeardAir([], { recordingId: 1, ...NOTHING, temperature_degC: 20 });
    expect(withHeardAir(first, { recordingId: 1, ...NOTHING })).toBe(first);
    expect(withHeardAir(first, { recordingId: 1, ...NOTHING, temperature_degC: 20 })).toBe(first);
    expect(withHeardAir(first, { recordingId: 2, ...NOTHING })).toBe(first);
    expect(withHeardAir(first, { recordingId: 2, ...NOTHING, pressure_Pa: 1e5 })).toHaveLength(2);
  });

  it('is not that of readings which were keyed in elsewhere', () => {
    const airs = [{ recordingId: 1, ...NOTHING, temperature_degC: 30 }];
    expect(saidOrHeard(ROTOR_AND_AIR, { recordingId: 1, basis: 'keyed' }, airs)).toBe(ROTOR_AND_AIR);
    expect(saidOrHeard(ROTOR_AND_AIR, { recordingId: 1, basis: 'settled' }, airs).air.temperature_degC).toBe(30);
  });
});
