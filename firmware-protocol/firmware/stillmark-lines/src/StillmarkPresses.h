/**
 * Presses that wait to be said. Each is said twice, a little apart, because a damaged line would
 * lose it; never with another press in between, because readers know a copy by its number.
 */
#pragma once

#include <stdint.h>

#include "StillmarkFrames.h"

namespace stillmark {

class Presses {
 public:
  /** More than MOST presses that wait are dropped; their numbers are still used up. */
  void add(Button button, uint32_t now_us) {
    if (count_ < MOST) presses_[count_++] = {number_, now_us, button};
    number_ += 1;
  }

  /** Those that wait are not said any more. */
  void forget() {
    count_ = 0;
    isSecond_ = false;
  }

  /** Gives the press that is to be said now, if any. */
  bool next(uint32_t now_us, Press &press) {
    if (count_ == 0) return false;
    if (isSecond_ && now_us - saidAt_us_ < APART_US) return false;
    press = presses_[0];
    saidAt_us_ = now_us;
    if (isSecond_) drop();
    isSecond_ = !isSecond_;
    return true;
  }

 private:
  static constexpr uint8_t MOST = 4;
  static constexpr uint32_t APART_US = 50000;

  void drop() {
    count_ -= 1;
    for (uint8_t index = 0; index < count_; index += 1) presses_[index] = presses_[index + 1];
  }

  Press presses_[MOST];
  uint8_t count_ = 0;
  /** The next one of the first press is its second. */
  bool isSecond_ = false;
  uint32_t saidAt_us_ = 0;
  uint16_t number_ = 0;
};

}  // namespace stillmark
