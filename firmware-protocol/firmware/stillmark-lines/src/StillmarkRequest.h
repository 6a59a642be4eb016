/** Reads what the host asks, byte by byte. */
#pragma once

#include <stdint.h>

namespace stillmark {

/** The most characters a request may have, its end not counted. */
constexpr uint8_t REQUEST_LIMIT = 64;

struct Request {
  /** other: an `$ask` with a right checksum that this version does not know. */
  enum class Kind : uint8_t { none, identify, pace, zero, other };
  Kind kind;
  /** pace: the period in µs; zero: the channel, from 1. */
  uint32_t value;
};

/** Reads one whole line, without its end. */
Request readRequest(const char *line, uint8_t length);

/** Bytes to requests: CR, LF and CR LF end a line; one with odd bytes, or too long, is nothing. */
class RequestReader {
 public:
  /** Takes one byte; of kind `none` unless it ended a line that asks for something. */
  Request take(char byte);

 private:
  char line_[REQUEST_LIMIT];
  uint8_t length_ = 0;
  /** The line is spoilt: nothing counts up to its end. */
  bool isSpoilt_ = false;
};

}  // namespace stillmark
