#include "StillmarkRequest.h"

#include "StillmarkChannel.h"
#include "StillmarkChecksum.h"
#include "StillmarkFlash.h"

namespace stillmark {

namespace {

const char IDENTIFY[] STILLMARK_FLASH = "*IDN?";
const char ASK[] STILLMARK_FLASH = "$ask";
const char ASK_PACE[] STILLMARK_FLASH = "$ask,pace,";
const char ASK_ZERO[] STILLMARK_FLASH = "$ask,zero,";

/** `*` and four hexadecimal digits. */
constexpr uint8_t TAIL = 5;

/** A part of a line. */
struct Part {
  const char *at;
  uint8_t length;
};

/** Whether `part` begins with the text; it is then cut off. */
bool skips(Part &part, const char *flashText) {
  uint8_t length = 0;
  for (char wanted = flashChar(flashText); wanted != '\0'; wanted = flashChar(flashText + length)) {
    if (length == part.length || part.at[length] != wanted) return false;
    length += 1;
  }
  part.at += length;
  part.length = static_cast<uint8_t>(part.length - length);
  return true;
}

/** Upper case only: one spelling for each line. 16 for what is no digit. */
uint8_t hexValue(char digit) {
  if (digit >= '0' && digit <= '9') return static_cast<uint8_t>(digit - '0');
  return digit >= 'A' && digit <= 'F' ? static_cast<uint8_t>(digit - 'A' + 10) : 16;
}

bool hasChecksum(const char *digits, uint16_t checksum) {
  for (int8_t shift = 12; shift >= 0; shift -= 4) {
    if (hexValue(*digits++) != ((checksum >> shift) & 0xF)) return false;
  }
  return true;
}

/** Cuts the checksum off a line `$body*HHHH`; false where there is none or a wrong one. */
bool unseal(Part &part) {
  if (part.length < TAIL + 1 || part.at[0] != '$') return false;
  const uint8_t end = static_cast<uint8_t>(part.length - TAIL);
  if (part.at[end] != '*') return false;
  uint16_t checksum = CHECKSUM_START;
  for (uint8_t index = 1; index < end; index += 1) {
    checksum = checksumWith(checksum, part.at[index]);
  }
  if (!hasChecksum(part.at + end + 1, checksum)) return false;
  part.length = end;
  return true;
}

/** A whole number from 1 in its only spelling; 0 where there is none, or a larger one. */
uint32_t readPositive(const Part &part) {
  constexpr uint32_t LARGEST = 0xFFFFFFFF;
  if (part.length == 0 || part.at[0] == '0') return 0;
  uint32_t value = 0;
  for (uint8_t index = 0; index < part.length; index += 1) {
    const char character = part.at[index];
    if (character < '0' || character > '9') return 0;
    const uint8_t digit = static_cast<uint8_t>(character - '0');
    if (value > LARGEST / 10 || (value == LARGEST / 10 && digit > LARGEST % 10)) return 0;
    value = value * 10 + digit;
  }
  return value;
}

bool isEndOfTag(const Part &part) { return part.length == 0 || part.at[0] == ','; }

}  // namespace

Request readRequest(const char *line, uint8_t length) {
  const Request nothing = {Request::Kind::none, 0};
  Part part = {line, length};
  if (skips(part, IDENTIFY)) {
    return part.length == 0 ? Request{Request::Kind::identify, 0} : nothing;
  }
  if (!unseal(part)) return nothing;
  Part value = part;
  if (skips(value, ASK_PACE)) {
    const uint32_t period_us = readPositive(value);
    if (period_us > 0) return {Request::Kind::pace, period_us};
  } else if (skips(value, ASK_ZERO)) {
    const uint32_t channel = readPositive(value);
    if (channel > 0 && channel <= MOST_CHANNELS) return {Request::Kind::zero, channel};
  }
  return skips(part, ASK) && isEndOfTag(part) ? Request{Request::Kind::other, 0} : nothing;
}

Request RequestReader::take(char byte) {
  if (byte == '\n' || byte == '\r') {
    const Request request = readRequest(line_, isSpoilt_ ? 0 : length_);
    length_ = 0;
    isSpoilt_ = false;
    return request;
  }
  const bool isClean = (byte >= ' ' && byte <= '~') || byte == '\t';
  if (!isClean || length_ == REQUEST_LIMIT) {
    isSpoilt_ = true;
  } else {
    line_[length_++] = byte;
  }
  return {Request::Kind::none, 0};
}

}  // namespace stillmark
