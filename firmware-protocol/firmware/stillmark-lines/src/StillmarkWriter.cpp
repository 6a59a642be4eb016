#include "StillmarkWriter.h"

#include "StillmarkFlash.h"

namespace stillmark {

namespace {

const uint32_t POWERS_OF_TEN[] STILLMARK_FLASH = {
    1000000000, 100000000, 10000000, 1000000, 100000, 10000, 1000, 100, 10,
};

char hexDigit(uint8_t nibble) {
  return static_cast<char>(nibble < 10 ? '0' + nibble : 'A' + nibble - 10);
}

void putHexadecimal(Queue &queue, uint8_t byte) {
  queue.put(hexDigit(byte >> 4));
  queue.put(hexDigit(byte & 0xF));
}

}  // namespace

Writer::Writer(Queue &queue, const char *tag) : queue_(queue) {
  queue_.put('$');
  text(tag);
}

Writer &Writer::number(uint32_t value) {
  put(',');
  digits(value);
  return *this;
}

Writer &Writer::whole(int32_t value) {
  put(',');
  if (value < 0) put('-');
  // Negated as unsigned: the smallest i32 has no positive counterpart.
  digits(value < 0 ? 0 - static_cast<uint32_t>(value) : static_cast<uint32_t>(value));
  return *this;
}

Writer &Writer::flash(const char *flashText) {
  put(',');
  text(flashText);
  return *this;
}

Writer &Writer::nothing() {
  put(',');
  return *this;
}

bool Writer::seal() {
  queue_.put('*');
  putHexadecimal(queue_, static_cast<uint8_t>(checksum_ >> 8));
  putHexadecimal(queue_, static_cast<uint8_t>(checksum_));
  queue_.put('\n');
  return queue_.commit();
}

void Writer::put(char character) {
  checksum_ = checksumWith(checksum_, character);
  queue_.put(character);
}

void Writer::text(const char *flashText) {
  for (char character = flashChar(flashText); character != '\0'; character = flashChar(flashText)) {
    put(character);
    flashText += 1;
  }
}

/** By subtraction: an 8-bit board has no division. */
void Writer::digits(uint32_t value) {
  bool hasBegun = false;
  for (const uint32_t &entry : POWERS_OF_TEN) {
    const uint32_t power = flashU32(&entry);
    char digit = '0';
    while (value >= power) {
      value -= power;
      digit += 1;
    }
    hasBegun = hasBegun || digit != '0';
    if (hasBegun) put(digit);
  }
  put(static_cast<char>('0' + value));
}

}  // namespace stillmark
