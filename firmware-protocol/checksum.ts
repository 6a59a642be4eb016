/**
 * The checksum of Stillmark lines: CRC-16 with polynomial x¹⁶ + x¹² + x⁵ + 1 (0x1021), initial
 * value 0xFFFF, most significant bit first, nothing reflected or inverted (listed as
 * CRC-16/CCITT-FALSE or CRC-16/IBM-3740). Check value for "123456789": 0x29B1.
 *
 * It finds every burst up to 16 bits, every odd number of wrong bits, and lets one in 65 536 of all
 * other damage through, where the eight-bit XOR that is common in `$…*HH` lines lets one in 256
 * through and can't see two characters swapped. On a board it needs no table.
 */

const POLYNOMIAL = 0x1021;
const INITIAL = 0xffff;

const TABLE = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte << 8;
  for (let bit = 0; bit < 8; bit += 1) {
    crc = (crc & 0x8000) !== 0 ? (crc << 1) ^ POLYNOMIAL : crc << 1;
  }
  return crc;
});

/** The checksum of the characters from `from` up to, not including, `to`; one byte each. */
export function checksum(text: string, from = 0, to = text.length): number {
  let crc = INITIAL;
  for (let position = from; position < to; position += 1) {
    const index = ((crc >> 8) ^ text.charCodeAt(position)) & 0xff;
    crc = ((crc << 8) & 0xffff) ^ (TABLE[index] as number);
  }
  return crc;
}
