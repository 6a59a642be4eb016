/**
 * CRC-16/CCITT-FALSE: polynomial 0x1021, initial value 0xFFFF, not reflected, no final XOR.
 * Check value of "123456789": 0x29B1.
 */
#pragma once

#include <stdint.h>

#if defined(__AVR__)
#include <util/crc16.h>
#endif

namespace stillmark {

constexpr uint16_t CHECKSUM_START = 0xFFFF;

inline uint16_t checksumWith(uint16_t checksum, char character) {
#if defined(__AVR__)
  return _crc_xmodem_update(checksum, static_cast<uint8_t>(character));
#else
  checksum = static_cast<uint16_t>(checksum ^ (static_cast<uint8_t>(character) << 8));
  for (uint8_t bit = 0; bit < 8; bit += 1) {
    const uint16_t shifted = static_cast<uint16_t>(checksum << 1);
    checksum = (checksum & 0x8000) ? static_cast<uint16_t>(shifted ^ 0x1021) : shifted;
  }
  return checksum;
#endif
}

}  // namespace stillmark
