import { describe, expect, it } from 'vitest';
import { checkSpeed, createSpeedWatch } from '../../../server/sources/speed.ts';

const LINES = new TextEncoder().encode(
  Array.from({ length: 60 }, (_, i) => `${i * 20},${(4.2 + i / 1000).toFixed(3)},151.8,5.31\r\n`).join(''),
);

/**
 * What a receiver at `read_Bd` makes of bytes sent at `sent_Bd`, both 8N1: a start bit of 0, eight
 * bits with the lowest first, a stop bit of 1 (ANSI/TIA-232 practice; from first principles). The
 * receiver waits for a falling edge and samples the middle of each bit; a byte whose stop bit is
 * not 1 is handed on all the same, as drivers do.
 */
function misread(sent: Uint8Array, sent_Bd: number, read_Bd: number): Uint8Array {
  const bits = [...sent].flatMap((byte) => [0, ...Array.from({ length: 8 }, (_, i) => (byte >> i) & 1), 1]);
  const level = (time_s: number): number => bits[Math.floor(time_s * sent_Bd)] ?? 1;
  const read: number[] = [];
  const step_s = 1 / (16 * read_Bd);
  const end_s = bits.length / sent_Bd;
  for (let time_s = 0; time_s < end_s; time_s += step_s) {
    if (level(time_s) === 1) continue;
    let byte = 0;
    for (let i = 0; i < 8; i += 1) byte |= level(time_s + (i + 1.5) / read_Bd) << i;
    read.push(byte);
    time_s += 9.5 / read_Bd;
  }
  return Uint8Array.from(read);
}

function looks(watch: ReturnType<typeof createSpeedWatch>, chunks: readonly Uint8Array[]): (number | null)[] {
  return chunks.map((chunk) => {
    watch.count(chunk);
    return watch.look();
  });
}

describe('the receiver that this is tested with', () => {
  it('reads what was sent at its own speed', () => {
    expect(misread(LINES, 9600, 9600)).toEqual(LINES);
  });
});

describe('speed watch', () => {
  it.each([9_600, 19_200, 38_400, 57_600])('tells that a board sending at %i Bd is misread at 115200', (sent_Bd) => {
    const garbage = misread(LINES, sent_Bd, 115_200);
    expect(looks(createSpeedWatch(115_200), [garbage, garbage])).toEqual([null, 9_600]);
  });

  it.each([115_200, 230_400])('tells that a board sending at %i Bd is misread at 9600', (sent_Bd) => {
    const garbage = misread(Uint8Array.from([...LINES, ...LINES]), sent_Bd, 9_600);
    expect(looks(createSpeedWatch(9_600), [garbage, garbage])).toEqual([null, 115_200]);
  });

  it('goes through the common speeds once, back to the first, and never to 1200', () => {
    const garbage = misread(LINES, 300, 115_200);
    const tried = looks(createSpeedWatch(115_200), Array<Uint8Array>(12).fill(garbage));
    expect(tried).toEqual([null, 9_600, 57_600, 38_400, 19_200, 230_400, 250_000, 115_200, null, null, null, null]);
  });

  it('leaves lines of numbers alone', () => {
    expect(looks(createSpeedWatch(115_200), Array<Uint8Array>(5).fill(LINES))).toEqual(Array(5).fill(null));
  });

  it('lets a restarting board greet at another speed', () => {
    const greeting = misread(LINES, 74_880, 115_200);
    expect(looks(createSpeedWatch(115_200), [greeting, LINES, greeting, LINES])).toEqual(Array(4).fill(null));
  });

  it('keeps a speed that has proved right, however long interference lasts', () => {
    const garbage = misread(LINES, 9_600, 115_200);
    const seen = [LINES, LINES, ...Array<Uint8Array>(6).fill(garbage), LINES];
    expect(looks(createSpeedWatch(115_200), seen)).toEqual(Array(9).fill(null));
  });

  it('does not judge from a handful of bytes', () => {
    const few = new Uint8Array(5).fill(0xff);
    expect(looks(createSpeedWatch(115_200), Array<Uint8Array>(6).fill(few))).toEqual(Array(6).fill(null));
  });
});

describe('asked-for speed', () => {
  it('is never 1200', () => {
    expect(() => checkSpeed(1200)).toThrow(/1200 is refused/);
  });
  it.each([0, -9600, 9600.5, NaN, 1e9])('is a line speed, which %d is not', (speed_Bd) => {
    expect(() => checkSpeed(speed_Bd)).toThrow(/not a line speed/);
  });
  it('may be unusual', () => {
    expect(() => checkSpeed(74_880)).not.toThrow();
  });
});
