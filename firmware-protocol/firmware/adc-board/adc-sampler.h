/**
 * Samples four analogue inputs in turn, at exact times, and sums the conversions up.
 *
 * Timer 1 ticks every 125 µs and starts a conversion; the next tick fetches it (it takes 112 µs at
 * most) and starts that of the next slot. Four slots are a round of 500 µs, and an interval is a
 * whole number of rounds: 20 ms, a period of 50 Hz mains, is exactly 40 rounds.
 * Nothing in the main loop can shift this, however long it is busy sending.
 *
 * Timer 1 is taken by this: no PWM on pins 9 and 10 (ATmega328P).
 */
#pragma once

#include <stdint.h>

constexpr uint8_t SLOTS = 4;
constexpr uint32_t ROUND_US = 500;
/** What the converter gives at its upper end: the true value may lie anywhere above. */
constexpr uint16_t ADC_TOP = 1023;

struct IntervalSums {
  /** Counts intervals made, taken or not. */
  uint16_t sequence;
  /** When it ended, as `micros()` says. */
  uint32_t end_us;
  uint16_t rounds;
  uint32_t sums[SLOTS];
  /** Bit 0 for slot 0: a conversion in it was ADC_TOP. */
  uint8_t clipped;
};

/** `inputs`: the analogue input of each slot, 0 for A0. */
void startSampler(const uint8_t (&inputs)[SLOTS], uint32_t period_us);

/** How long the intervals after the running one shall be: a multiple of ROUND_US. */
void setPeriod(uint32_t period_us);

/** Fetches the oldest finished interval, of four that are kept; false when there is none. */
bool takeInterval(IntervalSums &interval);
