/**
 * Pulses per second, from the times of the pulses themselves: counting pulses in a sample of 20 ms
 * would give 0, 0, 1, 0, …, and the host sees a counter only when a sample comes.
 */
#pragma once

#include <stdint.h>

namespace stillmark {

/** Written by an interrupt: how many pulses came, and when the last one did. */
struct PulseCounter {
  uint16_t count;
  uint32_t last_us;

  /** A contact's bounces are pulses that follow the one before within `deadTime_us`. */
  void take(uint32_t now_us, uint32_t deadTime_us) {
    if (now_us - last_us < deadTime_us) return;
    count += 1;
    last_us = now_us;
  }
};

/**
 * The rate is the pulses over the time from one pulse to another at least GATE_US later, held until
 * the next such pair. Once no pulse comes for longer than the rate allows, it is at most one pulse
 * in that time; after STILL_US without any it is zero. At the start nothing is known.
 */
class PulseRate {
 public:
  /** Takes the counter as it was at `now_us`. */
  void take(const PulseCounter &counter, uint32_t now_us);
  bool isKnown() const { return isKnown_; }
  /** Pulses per second, in thousandths. */
  int32_t rate_mHz() const { return static_cast<int32_t>(shown_mHz_); }

 private:
  static constexpr uint32_t GATE_US = 250000;
  static constexpr uint32_t STILL_US = 2000000;

  bool isKnown_ = false;
  /** Between a first pulse and standing still. */
  bool isTurning_ = false;
  /** Where the running measurement began. */
  PulseCounter start_ = {0, 0};
  uint32_t rate_mHz_ = 0;
  uint32_t shown_mHz_ = 0;
};

}  // namespace stillmark
