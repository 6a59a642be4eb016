/** When one sample ends and the next begins, for sketches that look at the clock in their loop. */
#pragma once

#include <stdint.h>

namespace stillmark {

class Interval {
 public:
  void start(uint32_t now_us) { began_us_ = due_us_ = now_us; }

  /** True once when `period_us` is over: `middle_us` and `sequence` are of the one that ended. */
  bool isOver(uint32_t now_us, uint32_t period_us) {
    if (now_us - due_us_ < period_us) return false;
    middle_us_ = began_us_ + (now_us - began_us_) / 2;
    began_us_ = now_us;
    sequence_ = next_++;
    // On a fixed grid, so that the mean rate is exact; after a long wait on a new one.
    due_us_ += period_us;
    if (now_us - due_us_ >= period_us) due_us_ = now_us;
    return true;
  }

  uint32_t middle_us() const { return middle_us_; }
  /** Of samples made. */
  uint16_t sequence() const { return sequence_; }

 private:
  uint32_t began_us_ = 0;
  /** When the running one began on the grid. */
  uint32_t due_us_ = 0;
  uint32_t middle_us_ = 0;
  uint16_t sequence_ = 0;
  uint16_t next_ = 0;
};

}  // namespace stillmark
