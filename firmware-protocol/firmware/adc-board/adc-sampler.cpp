#include "adc-sampler.h"

#include <Arduino.h>
#include <util/atomic.h>

namespace {

constexpr uint16_t TICK_CYCLES = F_CPU / 1000000 * ROUND_US / SLOTS;
static_assert(F_CPU == 16000000, "the converter's clock is set for a board of 16 MHz");

uint8_t multiplexer[SLOTS];
volatile uint32_t wanted_us;

// Touched by the interrupt alone.
IntervalSums running;
uint8_t slot;
uint32_t left_us;

// Finished intervals: the interrupt puts in at `head`, the main loop takes out at `tail`. More than
// one, because the loop may be busy with a long line while several short intervals end.
constexpr uint8_t KEPT = 4;
IntervalSums finished[KEPT];
volatile uint8_t head = 0;
volatile uint8_t tail = 0;

uint8_t after(uint8_t place) { return (place + 1) % KEPT; }

void startConversion(uint8_t inSlot) {
  ADMUX = multiplexer[inSlot];
  ADCSRA |= _BV(ADSC);
}

void beginInterval() {
  left_us = wanted_us;
  running.rounds = 0;
  running.clipped = 0;
  for (uint32_t &sum : running.sums) sum = 0;
}

void endInterval() {
  running.end_us = micros();
  if (after(head) != tail) {
    finished[head] = running;
    head = after(head);
  }
  running.sequence += 1;
  beginInterval();
}

}  // namespace

void startSampler(const uint8_t (&inputs)[SLOTS], uint32_t period_us) {
  // The supply is the reference (REFS0): the same as `analogRead` uses.
  for (uint8_t index = 0; index < SLOTS; index += 1) {
    multiplexer[index] = static_cast<uint8_t>(_BV(REFS0) | inputs[index]);
  }
  // 16 MHz / 128 = 125 kHz: the data sheet wants 50 to 200 kHz for the full ten bits.
  ADCSRA = _BV(ADEN) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
  wanted_us = period_us;
  running.sequence = 0;
  slot = 0;
  beginInterval();
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    // Counts from 0 to OCR1A and begins anew (mode 4, CTC), with the processor's clock.
    TCCR1A = 0;
    TCCR1B = _BV(WGM12) | _BV(CS10);
    OCR1A = TICK_CYCLES - 1;
    TCNT1 = 0;
    TIFR1 = _BV(OCF1A);
    TIMSK1 = _BV(OCIE1A);
    startConversion(slot);
  }
}

void setPeriod(uint32_t period_us) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { wanted_us = period_us; }
}

bool takeInterval(IntervalSums &interval) {
  if (tail == head) return false;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    interval = finished[tail];
    tail = after(tail);
  }
  return true;
}

ISR(TIMER1_COMPA_vect) {
  // Only a tick that came late, behind other interrupts, finds its conversion still running.
  while (ADCSRA & _BV(ADSC)) {
  }
  const uint16_t value = ADC;
  const uint8_t done = slot;
  slot = (done + 1) % SLOTS;
  startConversion(slot);
  running.sums[done] += value;
  if (value == ADC_TOP) running.clipped |= _BV(done);
  if (slot != 0) return;
  running.rounds += 1;
  left_us -= ROUND_US;
  if (left_us == 0) endInterval();
}
