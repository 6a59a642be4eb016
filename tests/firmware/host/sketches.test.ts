/** The sketches compile without a warning, fit the board, and refuse settings that can't be. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { needsFirmwareTools } from '../../support/needs.ts';
import { make, sketch } from '../support/make.ts';

const ROOT = join(import.meta.dirname, '../../..');
const FIRMWARE = join(ROOT, 'firmware-protocol/firmware');
const OUT = join(ROOT, 'dist/firmware');

// boards.txt of the Arduino core, ATmega328P with the larger boot loader: upload.maximum_size and
// upload.maximum_data_size.
const FLASH_BYTES = 30_720;
const RAM_BYTES = 2048;
/** More than twice the deepest stack that was seen in the emulator. */
const STACK_BYTES = 512;

const NO_NUMBER = /a number in the settings is none/;

/** What every way of wiring the board needs. */
const WAYS = [
  { way: 'pulses', flags: '-DWIND=WIND_PULSES' },
  { way: 'level', flags: '-DWIND=WIND_LEVEL' },
  { way: 'no-wind', flags: '-DWIND=WIND_NONE' },
  { way: 'rotor', flags: '-DWIND=WIND_PULSES -DROTOR_PULSES=1' },
  { way: 'fast-line', flags: '-DBAUD=1000000 -DPERIOD_US=5000 -DWIND=WIND_NONE' },
];
const SKETCHES = ['adc-board', 'monitor-board'] as const;
const CASES = SKETCHES.flatMap((name) => WAYS.map((way) => ({ name, ...way })));

/** Flash and RAM that a program takes, by `avr-size`. */
function sizeOf(elf: string): { flash: number; ram: number } {
  const [, row = ''] = execFileSync('avr-size', ['-B', elf], { encoding: 'utf8' }).split('\n');
  const [text = 0, data = 0, bss = 0] = row.trim().split(/\s+/).map(Number);
  return { flash: text + data, ram: data + bss };
}

needsFirmwareTools().describe('sketches', () => {
  it.each(CASES)('$name with $way: no warning, and it fits', async ({ name, way, flags }) => {
    await make(FIRMWARE, [name, `VARIANT=strict-${way}`, `EXTRA_DEFINES=-Werror ${flags}`]);
    const { flash, ram } = sizeOf(join(OUT, `${name}-strict-${way}.elf`));
    expect(flash).toBeGreaterThan(0);
    expect(flash).toBeLessThanOrEqual(FLASH_BYTES);
    expect(ram).toBeGreaterThan(0);
    expect(ram + STACK_BYTES).toBeLessThanOrEqual(RAM_BYTES);
  });

  it.each([
    ['a period that is no multiple of the grain', { PERIOD_US: 20_100 }],
    ['a period that the line can not carry', { PERIOD_US: 1000 }],
    ['a period that is too long', { PERIOD_US: 2_000_000 }],
  ])('refuse %s, and say so', async (what, defines) => {
    const variant = { name: `refused-${what.replaceAll(' ', '-')}`, defines };
    await expect(sketch('adc-board', variant)).rejects.toThrow(/PERIOD_US: a multiple of 500/);
  });

  it.each([
    ['#define VOLTAGE_SCALE "0.251770019531"', '#define VOLTAGE_SCALE "0,251770019531"', NO_NUMBER],
    ['#define CURRENT_GAIN "1"', '#define CURRENT_GAIN "1."', NO_NUMBER],
    ['#define WIND_PULSE_SCALE "0.0004"', '#define WIND_PULSE_SCALE "0x04"', NO_NUMBER],
    ['#define WIND_OFFSET "0"', '#define WIND_OFFSET ""', NO_NUMBER],
    ['#define MAKER "Own workshop"', '#define MAKER "Own, workshop"', /plain characters without/],
  ])('with %s changed to %s is refused, and says so', (setting, changed, words) => {
    const text = readFileSync(join(FIRMWARE, 'fast-board/fast-board.ino'), 'utf8');
    expect(text.split(setting)).toHaveLength(2);
    expect(syntaxErrors(text)).toBe('');
    expect(syntaxErrors(text.replace(setting, changed))).toMatch(words);
  });
});

/** What this computer's compiler says of a sketch for 32-bit boards. */
function syntaxErrors(text: string): string {
  const library = join(FIRMWARE, 'stillmark-lines/src');
  const double = join(import.meta.dirname, 'arduino-double');
  const flags = ['-std=c++11', '-fsyntax-only', '-DARDUINO=10819', `-I${library}`, `-I${double}`];
  const args = [...flags, '-include', 'Arduino.h', '-x', 'c++', '-'];
  return spawnSync('g++', args, { input: text, encoding: 'utf8' }).stderr;
}
