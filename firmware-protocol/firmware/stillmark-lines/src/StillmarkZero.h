/** Takes a channel's zero: the mean of its counts over a second in which nothing flows. */
#pragma once

#include <stdint.h>

#include "StillmarkMean.h"
#include "StillmarkFrames.h"

namespace stillmark {

class ZeroTaking {
 public:
  bool isRunning() const { return isRunning_; }
  uint8_t index() const { return index_; }

  /** Counts farther than `limit` from 0 are no zero: something still flows. */
  void start(uint8_t index, int32_t limit, uint32_t now_us) {
    isRunning_ = true;
    isSpoilt_ = false;
    index_ = index;
    limit_ = limit;
    from_us_ = now_us;
    sum_ = 0;
    count_ = 0;
  }

  void take(const Sample &sample) {
    if (!isRunning_ || isSpoilt_ || count_ == MOST) return;
    if (!sample.has(index_)) {
      isSpoilt_ = true;
      return;
    }
    const int32_t count = sample.counts[index_];
    isSpoilt_ = count > limit_ || count < -limit_;
    sum_ += count;
    count_ += 1;
  }

  bool isDone(uint32_t now_us) const {
    return isRunning_ && (isSpoilt_ || (count_ > 0 && now_us - from_us_ >= LASTING_US));
  }

  /** Ends it; false where there was no zero to take. */
  bool finish(int32_t &zero) {
    isRunning_ = false;
    if (!isSpoilt_) zero = meanOf(sum_, count_);
    return !isSpoilt_;
  }

 private:
  static constexpr uint32_t LASTING_US = 1000000;
  /** With `limit` below 2²⁰ the sum stays within 31 bits. */
  static constexpr uint16_t MOST = 1024;

  bool isRunning_ = false;
  bool isSpoilt_ = false;
  uint8_t index_ = 0;
  int32_t limit_ = 0;
  uint32_t from_us_ = 0;
  int32_t sum_ = 0;
  uint16_t count_ = 0;
};

}  // namespace stillmark
