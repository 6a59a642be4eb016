/**
 * Texts and tables that stay in program memory: an 8-bit board would copy them to its 2 KB of RAM.
 */
#pragma once

#include <stdint.h>

#if defined(__AVR__)
#include <avr/pgmspace.h>
#define STILLMARK_FLASH PROGMEM
#else
#define STILLMARK_FLASH
#endif

namespace stillmark {

inline char flashChar(const char *at) {
#if defined(__AVR__)
  return static_cast<char>(pgm_read_byte(at));
#else
  return *at;
#endif
}

inline int32_t flashI32(const int32_t *at) {
#if defined(__AVR__)
  return static_cast<int32_t>(pgm_read_dword(at));
#else
  return *at;
#endif
}

inline uint32_t flashU32(const uint32_t *at) {
#if defined(__AVR__)
  return pgm_read_dword(at);
#else
  return *at;
#endif
}

}  // namespace stillmark
