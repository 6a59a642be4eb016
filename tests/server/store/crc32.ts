/**
 * CRC-32 bit by bit from its parameters (polynomial 04C11DB7 reflected to EDB88320, initial value
 * and final inversion all ones): slow, and independent of what the store uses.
 */
export function bitwiseCrc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}
