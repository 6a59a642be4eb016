/** Where the library touches Arduino: the clock, the port, buttons, pulses. */
#pragma once

#if defined(ARDUINO)

#include <Arduino.h>

#include "StillmarkBoard.h"
#include "StillmarkDebounce.h"
#include "StillmarkPulses.h"

/**
 * Where device time begins, in µs. Only tests set it: shortly before 2³² they need not wait 71
 * minutes to see the clock wrap.
 */
#ifndef STILLMARK_CLOCK_START_US
#define STILLMARK_CLOCK_START_US 0UL
#endif

namespace stillmark {

/** Device time of what `micros()` said. */
inline uint32_t deviceTime_us(uint32_t micros_us) { return micros_us + STILLMARK_CLOCK_START_US; }

inline uint32_t deviceTime_us() { return deviceTime_us(micros()); }

/** Carries bytes both ways, `room` of them at most to the port. Call it in every loop. */
inline void serve(Board &board, Stream &port, int room) {
  const uint32_t now_us = deviceTime_us();
  while (board.isListening() && port.available() > 0) {
    board.receive(static_cast<char>(port.read()), now_us);
  }
  board.tick(now_us, room > 0);
  for (; room > 0; room -= 1) {
    const int16_t byte = board.nextByte();
    if (byte < 0) return;
    port.write(static_cast<uint8_t>(byte));
  }
}

/** The same, as many as the port says that it takes without waiting. */
inline void serve(Board &board, Stream &port) { serve(board, port, port.availableForWrite()); }

/** Three buttons, each from its pin to ground. */
class Buttons {
 public:
  Buttons(uint8_t logPin, uint8_t strikePin, uint8_t nextPin) : pins_{logPin, strikePin, nextPin} {}

  void begin() {
    for (const uint8_t pin : pins_) pinMode(pin, INPUT_PULLUP);
  }

  /** Call it in every loop. */
  void watch(Board &board) {
    const uint32_t now_us = deviceTime_us();
    for (uint8_t index = 0; index < COUNT; index += 1) {
      const bool isClosed = digitalRead(pins_[index]) == LOW;
      if (contacts_[index].isPressed(isClosed, now_us)) {
        board.press(static_cast<Button>(index), now_us);
      }
    }
  }

 private:
  static constexpr uint8_t COUNT = 3;
  const uint8_t pins_[COUNT];
  Debounce contacts_[COUNT];
};

/** Pulses to ground on a pin with an interrupt. */
class PulseInput {
 public:
  /** `onPulse` is a function of the sketch that calls `take`. */
  void begin(uint8_t pin, void (*onPulse)()) {
    pinMode(pin, INPUT_PULLUP);
    attachInterrupt(digitalPinToInterrupt(pin), onPulse, FALLING);
  }

  /** In the interrupt: pulses closer together than `deadTime_us` are one. */
  void take(uint32_t deadTime_us) { counter_.take(micros(), deadTime_us); }

  /** Puts the rate in thousandths of a pulse per second into the sample, once it is known. */
  void into(Sample &sample, uint8_t index) {
    noInterrupts();
    const PulseCounter counter = counter_;
    interrupts();
    rate_.take(counter, micros());
    if (rate_.isKnown()) sample.set(index, rate_.rate_mHz());
  }

 private:
  PulseCounter counter_ = {0, 0};
  PulseRate rate_;
};

}  // namespace stillmark

#endif
