#include "StillmarkPulses.h"

namespace stillmark {

namespace {

constexpr uint32_t MILLIHERTZ_US = 1000000000;

/** pulses · 10⁹ / span_us without 64 bits: the remainder apart. */
uint32_t rateOf_mHz(uint16_t pulses, uint32_t span_us) {
  const uint32_t rest = MILLIHERTZ_US % span_us * pulses / span_us;
  return MILLIHERTZ_US / span_us * pulses + rest;
}

}  // namespace

void PulseRate::take(const PulseCounter &counter, uint32_t now_us) {
  const uint16_t pulses = static_cast<uint16_t>(counter.count - start_.count);
  const uint32_t quiet_us = now_us - counter.last_us;
  if (quiet_us >= STILL_US) {
    isKnown_ = true;
    isTurning_ = false;
    start_.count = counter.count;
    rate_mHz_ = 0;
  } else if (pulses > 0 && !isTurning_) {
    isTurning_ = true;
    start_ = counter;
  } else if (pulses > 0 && counter.last_us - start_.last_us >= GATE_US) {
    isKnown_ = true;
    rate_mHz_ = rateOf_mHz(pulses, counter.last_us - start_.last_us);
    start_ = counter;
  }
  const bool isSlowing = quiet_us > 0 && MILLIHERTZ_US / quiet_us < rate_mHz_;
  shown_mHz_ = isSlowing ? MILLIHERTZ_US / quiet_us : rate_mHz_;
}

}  // namespace stillmark
