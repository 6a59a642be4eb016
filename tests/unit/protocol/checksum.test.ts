import { describe, expect, it } from 'vitest';
import { checksum } from '#protocol/checksum.ts';

describe('checksum', () => {
  // Published check values of CRC-16/CCITT-FALSE (also CRC-16/IBM-3740): the catalogue of
  // parametrised CRC algorithms by Greg Cook, entry CRC-16/IBM-3740, gives 0x29b1.
  it('has the published check value', () => {
    expect(checksum('123456789')).toBe(0x29b1);
  });

  // Python 3.11, binascii.crc_hqx(text, 0xFFFF).
  it.each([
    ['', 0xffff],
    ['A', 0xb915],
    ['s,1,10000,512,300,41', 0x3924],
    ['The quick brown fox jumps over the lazy dog', 0x8fdd],
  ])('of "%s" is that of another implementation', (text, expected) => {
    expect(checksum(text)).toBe(expected);
  });

  it('looks at the given part alone', () => {
    expect(checksum('$123456789*', 1, 10)).toBe(0x29b1);
  });
});
