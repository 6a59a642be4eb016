/**
 * Writes one Stillmark line, field by field, with a running checksum:
 *
 *   Writer(queue, TAG).number(7).flash(text).nothing().seal();
 */
#pragma once

#include <stdint.h>

#include "StillmarkChecksum.h"
#include "StillmarkQueue.h"

namespace stillmark {

class Writer {
 public:
  /** `tag` is in program memory. */
  Writer(Queue &queue, const char *tag);
  Writer &number(uint32_t value);
  Writer &whole(int32_t value);
  /** A field whose text is in program memory. */
  Writer &flash(const char *text);
  /** An empty field: no reading, not known. */
  Writer &nothing();
  /** Ends the line; false when the queue had no room, then nothing of it is sent. */
  bool seal();

 private:
  void put(char character);
  void text(const char *flashText);
  void digits(uint32_t value);

  Queue &queue_;
  uint16_t checksum_ = CHECKSUM_START;
};

}  // namespace stillmark
