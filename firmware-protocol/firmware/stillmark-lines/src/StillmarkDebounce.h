/** A push button without its bounces. */
#pragma once

#include <stdint.h>

namespace stillmark {

class Debounce {
 public:
  /** Takes the contact as it is now; true once for each press, at its first touch. */
  bool isPressed(bool isClosed, uint32_t now_us) {
    if (isClosed == isDown_ || now_us - changedAt_us_ < SETTLE_US) return false;
    isDown_ = isClosed;
    changedAt_us_ = now_us;
    return isDown_;
  }

 private:
  /** Contacts are quiet well within this; nobody presses twice in it. */
  static constexpr uint32_t SETTLE_US = 30000;
  /** Down at first: one that is stuck, or wired wrongly, is not a press at every start. */
  bool isDown_ = true;
  uint32_t changedAt_us_ = 0;
};

}  // namespace stillmark
