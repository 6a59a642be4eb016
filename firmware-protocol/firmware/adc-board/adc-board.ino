/*
 * Stillmark lines from an 8-bit 5 V board (ATmega328P at 16 MHz) with its own converter.
 *
 *   A0     voltage of the generator, through a divider
 *   A1     voltage over a shunt in its circuit, through an amplifier: the current
 *   A2     anemometer with an analogue output (only with WIND_LEVEL)
 *   D2     anemometer with pulses, contact or open collector to ground (only with WIND_PULSES)
 *   D3     rotor pick-up with pulses to ground (only with ROTOR_PULSES)
 *   D4 D5 D6   buttons to ground: log now, strike the last trial, next run
 *
 * Cautions. Extra-low voltage only: never mains, not even "only to measure it". No pin may see less
 * than 0 V or more than 5 V: the divider and the amplifier have to make sure of that even with the
 * rotor at its fastest and no load. Keep fingers, hair and cables away from spinning blades; a lamp
 * gets hot. Where children take part, and wherever you are not sure, follow your local rules and
 * ask a qualified person.
 */
#include <StillmarkLines.h>

#include "adc-sampler.h"

// Choices for WIND.
#define WIND_NONE 0
#define WIND_PULSES 1
#define WIND_LEVEL 2

// ---------------------------------------------------------------------------------------------
// Settings: what you built. Everything to change stands in this block.
// ---------------------------------------------------------------------------------------------

// How the anemometer tells the wind: WIND_PULSES (D2), WIND_LEVEL (A2) or WIND_NONE.
#ifndef WIND
#define WIND WIND_PULSES
#endif

// 1: a pick-up on D3 counts the rotor's turns; 0: there is none.
#ifndef ROTOR_PULSES
#define ROTOR_PULSES 0
#endif

// Who you are. 1 to 40 plain characters each, without $ * and comma.
#define MAKER "Own workshop"
#define MODEL "adc-board"
// Give each board its own, so that the page can tell them apart; "0": none.
#define SERIAL_NUMBER "0"

// What one count is worth. The board sends 64 counts for each of the converter's 1024 steps.
// Numbers are texts in quotes, with a point: "0.25", not "0,25".
//
//   voltage, in mV:  5000 / 65536 * (R1 + R2) / R2    R1 from the generator to A0, R2 to ground
//   current, in mA:  5000 / 65536 / (shunt in ohms) / (gain of the amplifier)
//
// Here: 20 kOhm and 10 kOhm, so up to 15 V; a shunt of 0.5 ohm and a gain of 20, so up to 500 mA.
#define VOLTAGE_SCALE "0.2288818359375"
#define CURRENT_SCALE "0.00762939453125"

// What a calibration against a good multimeter found: "1" and "0" before one.
// reading = gain * (reading as designed) + offset, in mV and mA.
#define VOLTAGE_GAIN "1"
#define VOLTAGE_OFFSET "0"
#define CURRENT_GAIN "1"
#define CURRENT_OFFSET "0"

// How well gain (a ratio) and offset (in mV, mA) are known, as standard uncertainties; "": unknown.
// Before a calibration the 5 V of a USB port alone, 5 % either way, are 0.03.
#define VOLTAGE_GAIN_UNCERTAINTY "0.03"
#define VOLTAGE_OFFSET_UNCERTAINTY ""
#define CURRENT_GAIN_UNCERTAINTY "0.03"
#define CURRENT_OFFSET_UNCERTAINTY ""

// Wind from pulses, in m/s: metres of wind for one pulse, divided by 1000. Where the data sheet
// says "0.4 m/s for 1 pulse a second", or "2.5 pulses a metre", that is 0.4 / 1000.
#define WIND_PULSE_SCALE "0.0004"
// Wind from a level, in m/s: (m/s at 5 V) / 65536. Here 32 m/s at 5 V. The offset is in m/s.
#define WIND_LEVEL_SCALE "0.00048828125"
#define WIND_OFFSET "0"
// A contact bounces: pulses closer together than this are one, in microseconds.
#define WIND_DEAD_TIME_US 2000

// Rotor speed in rpm: 60 / (pulses for one turn) / 1000. Here 2 pulses for one turn.
#define ROTOR_SCALE "0.03"
#define ROTOR_DEAD_TIME_US 500

// Speed of the line, and time between samples until the host asks for another: a multiple of 500
// us. 20000 us are one period of 50 Hz mains, so that its hum averages out; take 50000 us where
// mains have 60 Hz (three periods).
#ifndef BAUD
#define BAUD 115200
#endif
#ifndef PERIOD_US
#define PERIOD_US 20000
#endif

// ---------------------------------------------------------------------------------------------

constexpr uint8_t WIND_PULSE_PIN = 2;
constexpr uint8_t ROTOR_PIN = 3;
constexpr uint8_t LOG_PIN = 4;
constexpr uint8_t STRIKE_PIN = 5;
constexpr uint8_t NEXT_PIN = 6;

// In the order of the announcement.
enum ChannelIndex : uint8_t {
  VOLTAGE,
  CURRENT,
#if WIND != WIND_NONE
  WIND_SPEED,
#endif
#if ROTOR_PULSES
  ROTOR_SPEED,
#endif
  CHANNELS
};

// A zero farther off than this is none: 1/16 of the range, in counts.
constexpr int32_t ZERO_LIMIT = 4096;

constexpr stillmark::Identity IDENTITY STILLMARK_FLASH = {MAKER, MODEL, SERIAL_NUMBER, "1.0"};
constexpr stillmark::Channel CHANNEL_TEXTS[CHANNELS] STILLMARK_FLASH = {
    {"voltage", "mV", VOLTAGE_SCALE, VOLTAGE_GAIN, VOLTAGE_OFFSET, VOLTAGE_GAIN_UNCERTAINTY,
     VOLTAGE_OFFSET_UNCERTAINTY, ZERO_LIMIT},
    {"current", "mA", CURRENT_SCALE, CURRENT_GAIN, CURRENT_OFFSET, CURRENT_GAIN_UNCERTAINTY,
     CURRENT_OFFSET_UNCERTAINTY, ZERO_LIMIT},
#if WIND == WIND_PULSES
    {"windSpeed", "mps", WIND_PULSE_SCALE, "1", WIND_OFFSET, "", "", 0},
#elif WIND == WIND_LEVEL
    {"windSpeed", "mps", WIND_LEVEL_SCALE, "1", WIND_OFFSET, "", "", ZERO_LIMIT},
#endif
#if ROTOR_PULSES
    {"rotorSpeed", "rpm", ROTOR_SCALE, "1", "0", "", "", 0},
#endif
};
static_assert(stillmark::isSound(IDENTITY), "MAKER, MODEL: plain characters without $ * and comma");
static_assert(stillmark::areSound(CHANNEL_TEXTS), "a number in the settings is none: \"0.25\"");

// The current is the smallest signal, so it is converted twice a round; the voltage too, where the
// wind needs no slot.
constexpr uint8_t VOLTAGE_INPUT = 0;
constexpr uint8_t CURRENT_INPUT = 1;
constexpr uint8_t WIND_INPUT = WIND == WIND_LEVEL ? 2 : VOLTAGE_INPUT;
constexpr uint8_t SLOT_INPUTS[SLOTS] = {VOLTAGE_INPUT, CURRENT_INPUT, WIND_INPUT, CURRENT_INPUT};

constexpr int32_t COUNTS_PER_STEP = 64;

constexpr uint32_t LINE_US = stillmark::shortestPeriod_us(CHANNELS, BAUD, ROUND_US);
// Whatever the line carries, the processor needs 0.75 ms for a sample and 0.18 ms for each channel
// (measured in an emulator); some is left to spare.
constexpr uint32_t PROCESSOR_US = stillmark::roundedUp(1000 + 200 * CHANNELS, ROUND_US);
constexpr uint32_t SHORTEST_US = LINE_US < PROCESSOR_US ? PROCESSOR_US : LINE_US;
constexpr stillmark::Pace PACE = {PERIOD_US, SHORTEST_US, 1000000};
static_assert(PERIOD_US % ROUND_US == 0 && PERIOD_US >= SHORTEST_US && PERIOD_US <= 1000000,
              "PERIOD_US: a multiple of 500, not too short for BAUD");

stillmark::Board board(IDENTITY, CHANNEL_TEXTS, CHANNELS, PACE, ROUND_US);
stillmark::ZeroStore zeroStore(board, CHANNEL_TEXTS);
stillmark::Buttons buttons(LOG_PIN, STRIKE_PIN, NEXT_PIN);
stillmark::PulseInput windPulses;
stillmark::PulseInput rotorPulses;

void onWindPulse() { windPulses.take(WIND_DEAD_TIME_US); }
void onRotorPulse() { rotorPulses.take(ROTOR_DEAD_TIME_US); }

/** The mean of all slots of an input. */
void setLevel(stillmark::Sample &sample, uint8_t index, const IntervalSums &interval,
              uint8_t input) {
  stillmark::Level level;
  for (uint8_t slot = 0; slot < SLOTS; slot += 1) {
    if (SLOT_INPUTS[slot] != input) continue;
    level.add(interval.sums[slot], interval.rounds);
    if ((interval.clipped >> slot) & 1) level.markOver();
  }
  level.into(sample, index, COUNTS_PER_STEP, board);
}

void sendSample(const IntervalSums &interval) {
  stillmark::Sample sample;
  sample.clear();
  sample.sequence = interval.sequence;
  sample.time = stillmark::deviceTime_us(interval.end_us - interval.rounds * ROUND_US / 2);
  setLevel(sample, VOLTAGE, interval, VOLTAGE_INPUT);
  setLevel(sample, CURRENT, interval, CURRENT_INPUT);
#if WIND == WIND_LEVEL
  setLevel(sample, WIND_SPEED, interval, WIND_INPUT);
#elif WIND == WIND_PULSES
  windPulses.into(sample, WIND_SPEED);
#endif
#if ROTOR_PULSES
  rotorPulses.into(sample, ROTOR_SPEED);
#endif
  board.sample(sample, stillmark::deviceTime_us());
}

void setup() {
  Serial.begin(BAUD);
  buttons.begin();
  if (WIND == WIND_PULSES) windPulses.begin(WIND_PULSE_PIN, onWindPulse);
  if (ROTOR_PULSES) rotorPulses.begin(ROTOR_PIN, onRotorPulse);
  zeroStore.restore();
  board.begin(stillmark::deviceTime_us());
  startSampler(SLOT_INPUTS, board.period_us());
}

void loop() {
  stillmark::serve(board, Serial);
  setPeriod(board.period_us());
  zeroStore.keep();
  buttons.watch(board);
  IntervalSums interval;
  if (takeInterval(interval)) sendSample(interval);
}
