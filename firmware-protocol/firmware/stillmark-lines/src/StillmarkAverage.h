/**
 * The mean of many conversions, in fractions of a converter's step.
 *
 * Where noise spreads the conversions over more than a step, their mean resolves parts of one; and
 * an interval of whole mains periods (20 ms, 16.7 ms, or 100 ms for both) averages hum out.
 */
#pragma once

#include <stdint.h>

namespace stillmark {

class Average {
 public:
  void clear() { sum_ = 0; count_ = 0; }
  /** Values beyond the MOST-th are not taken in. */
  void add(int32_t value) {
    if (count_ == MOST) return;
    sum_ += value;
    count_ += 1;
  }
  bool isEmpty() const { return count_ == 0; }
  /** `parts` times the mean, rounded; `parts` times the sum must fit 31 bits. */
  int32_t times(int32_t parts) const { return meanOf(sum_ * parts, count_); }

  /** sum / count, rounded to the nearest. */
  static int32_t meanOf(int32_t sum, uint16_t count) {
    const int32_t half = count / 2;
    return (sum < 0 ? sum - half : sum + half) / static_cast<int32_t>(count);
  }

 private:
  /** With values of 12 bits and 16 parts the sum stays within 31 bits. */
  static constexpr uint16_t MOST = 32767;
  int32_t sum_ = 0;
  uint16_t count_ = 0;
};

}  // namespace stillmark
