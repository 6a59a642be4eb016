/**
 * A converter's reading for one sample: the mean of many conversions, in fractions of a step.
 *
 * Where noise spreads the conversions over more than a step, their mean resolves parts of one; and
 * over whole periods of the mains (20 ms, 16.7 ms, or 100 ms for both) hum averages out.
 */
#pragma once

#include <stdint.h>

#include "StillmarkBoard.h"
#include "StillmarkMean.h"

namespace stillmark {

class Level {
 public:
  /** Takes one conversion, or the sum of `count`. Those beyond the MOST-th are not taken in. */
  void add(int32_t sum, uint16_t count = 1) {
    if (count_ > MOST - count) return;
    sum_ += sum;
    count_ += count;
  }
  /** A conversion was at the end of the range: the true value may lie anywhere beyond. */
  void markOver() { isOver_ = true; }
  void markUnder() { isUnder_ = true; }

  /**
   * Puts `parts` times the mean into the sample, or says why not, and begins anew. `parts` times
   * the sum must fit 31 bits.
   */
  void into(Sample &sample, uint8_t index, int32_t parts, Board &board) {
    const uint8_t channel = static_cast<uint8_t>(index + 1);
    if (isOver_) board.trouble(channel, Trouble::over);
    if (isUnder_) board.trouble(channel, Trouble::under);
    if (count_ > 0 && !isOver_ && !isUnder_) sample.set(index, meanOf(sum_ * parts, count_));
    *this = Level();
  }

 private:
  /** With values of 12 bits and 16 parts the sum stays within 31 bits. */
  static constexpr uint16_t MOST = 32767;
  int32_t sum_ = 0;
  uint16_t count_ = 0;
  bool isOver_ = false;
  bool isUnder_ = false;
};

}  // namespace stillmark
