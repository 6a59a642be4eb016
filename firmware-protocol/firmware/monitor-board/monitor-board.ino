/*
 * Stillmark lines from an 8-bit 5 V board (ATmega328P at 16 MHz) with a 12-bit current and power
 * monitor on I2C: no divider and no amplifier to build, and no dependence on the 5 V.
 *
 *   SDA SCL   the monitor (A4 and A5 on most boards); its shunt in the generator's circuit
 *   A2        anemometer with an analogue output (only with WIND_LEVEL)
 *   D2        anemometer with pulses, contact or open collector to ground (only with WIND_PULSES)
 *   D3        rotor pick-up with pulses to ground (only with ROTOR_PULSES)
 *   D4 D5 D6  buttons to ground: log now, strike the last trial, next run
 *
 * Cautions. Extra-low voltage only: never mains, not even "only to measure it". The monitor bears
 * 26 V at most, and its ground is the board's ground. Keep fingers, hair and cables away from
 * spinning blades; a lamp gets hot. Where children take part, and wherever you are not sure, follow
 * your local rules and ask a qualified person.
 */
#include <StillmarkLines.h>

#include "power-monitor.h"

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
#define MODEL "monitor-board"
// Give each board its own, so that the page can tell them apart; "0": none.
#define SERIAL_NUMBER "0"

// The monitor's address on the bus, and how much voltage its shunt may drop: 40, 80, 160 or 320 mV.
// Take the narrowest that holds your current: its steps are finer and its zero is better.
#define MONITOR_ADDRESS 0x40
#ifndef SHUNT_RANGE_MV
#define SHUNT_RANGE_MV 320
#endif

// What one count is worth. The board sends 16 counts for each of the monitor's steps.
// Numbers are texts in quotes, with a point: "0.25", not "0,25".
//
//   voltage, in mV:  4 / 16
//   current, in mA:  0.01 / 16 / (shunt in ohms)
//
// Here: a shunt of 0.1 ohm, so up to 3.2 A.
#define VOLTAGE_SCALE "0.25"
#define CURRENT_SCALE "0.00625"

// What a calibration against a good multimeter found: "1" and "0" before one.
// reading = gain * (reading as designed) + offset, in mV and mA.
#define VOLTAGE_GAIN "1"
#define VOLTAGE_OFFSET "0"
#define CURRENT_GAIN "1"
#define CURRENT_OFFSET "0"

// How well gain (a ratio) and offset (in mV, mA) are known, as standard uncertainties; "": unknown.
// Before a calibration: the monitor to 0.5 %, a shunt of 1 %, each divided by the square root of 3.
#define VOLTAGE_GAIN_UNCERTAINTY "0.003"
#define VOLTAGE_OFFSET_UNCERTAINTY ""
#define CURRENT_GAIN_UNCERTAINTY "0.0065"
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
constexpr uint8_t WIND_LEVEL_PIN = A2;

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

constexpr int32_t COUNTS_PER_STEP = 16;
constexpr int32_t WIND_COUNTS_PER_STEP = 64;
// What the converter gives at its upper end: the true value may lie anywhere above.
constexpr int ADC_TOP = 1023;
// The monitor bears 26 V.
constexpr uint16_t BUS_TOP = 6500;
// A zero farther off than this is none: 100 mV, 1 mV over the shunt, 1/16 of the wind's range.
constexpr int32_t VOLTAGE_ZERO_LIMIT = 25 * COUNTS_PER_STEP;
constexpr int32_t CURRENT_ZERO_LIMIT = 100 * COUNTS_PER_STEP;
constexpr int32_t WIND_ZERO_LIMIT = 4096;

constexpr stillmark::Identity IDENTITY STILLMARK_FLASH = {MAKER, MODEL, SERIAL_NUMBER, "1.0"};
constexpr stillmark::Channel CHANNEL_TEXTS[CHANNELS] STILLMARK_FLASH = {
    {"voltage", "mV", VOLTAGE_SCALE, VOLTAGE_GAIN, VOLTAGE_OFFSET, VOLTAGE_GAIN_UNCERTAINTY,
     VOLTAGE_OFFSET_UNCERTAINTY, VOLTAGE_ZERO_LIMIT},
    {"current", "mA", CURRENT_SCALE, CURRENT_GAIN, CURRENT_OFFSET, CURRENT_GAIN_UNCERTAINTY,
     CURRENT_OFFSET_UNCERTAINTY, CURRENT_ZERO_LIMIT},
#if WIND == WIND_PULSES
    {"windSpeed", "mps", WIND_PULSE_SCALE, "1", WIND_OFFSET, "", "", 0},
#elif WIND == WIND_LEVEL
    {"windSpeed", "mps", WIND_LEVEL_SCALE, "1", WIND_OFFSET, "", "", WIND_ZERO_LIMIT},
#endif
#if ROTOR_PULSES
    {"rotorSpeed", "rpm", ROTOR_SCALE, "1", "0", "", "", 0},
#endif
};
static_assert(stillmark::isSound(IDENTITY), "MAKER, MODEL: plain characters without $ * and comma");
static_assert(stillmark::areSound(CHANNEL_TEXTS), "a number in the settings is none: \"0.25\"");

static_assert(SHUNT_RANGE_MV == 40 || SHUNT_RANGE_MV == 80 || SHUNT_RANGE_MV == 160 ||
                  SHUNT_RANGE_MV == 320,
              "SHUNT_RANGE_MV: 40, 80, 160 or 320");

// A sample has at least two pairs of the monitor's readings.
constexpr uint32_t GRAIN_US = 500;
constexpr uint32_t LINE_US = stillmark::shortestPeriod_us(CHANNELS, BAUD, GRAIN_US);
constexpr uint32_t SHORTEST_US = LINE_US < 5000 ? 5000 : LINE_US;
constexpr stillmark::Pace PACE = {PERIOD_US, SHORTEST_US, 1000000};
static_assert(PERIOD_US % GRAIN_US == 0 && PERIOD_US >= SHORTEST_US && PERIOD_US <= 1000000,
              "PERIOD_US: a multiple of 500, not too short for BAUD");

stillmark::Board board(IDENTITY, CHANNEL_TEXTS, CHANNELS, PACE, GRAIN_US);
stillmark::ZeroStore zeroStore(board, CHANNEL_TEXTS);
stillmark::Buttons buttons(LOG_PIN, STRIKE_PIN, NEXT_PIN);
stillmark::Interval interval;

PowerMonitor monitor(MONITOR_ADDRESS, SHUNT_RANGE_MV);
// What is being averaged for the running sample.
stillmark::Level voltage;
stillmark::Level current;
stillmark::Level wind;

stillmark::PulseInput windPulses;
stillmark::PulseInput rotorPulses;

void onWindPulse() { windPulses.take(WIND_DEAD_TIME_US); }
void onRotorPulse() { rotorPulses.take(ROTOR_DEAD_TIME_US); }

void takeMonitorReading() {
  MonitorReading reading;
  if (!monitor.poll(micros(), reading)) return;
  voltage.add(reading.bus);
  current.add(reading.shunt);
  if (reading.bus >= BUS_TOP) voltage.markOver();
  if (reading.isOverflow || reading.shunt >= monitor.shuntTop()) current.markOver();
  if (reading.shunt <= -monitor.shuntTop()) current.markUnder();
}

void takeWindLevel() {
  const int level = analogRead(WIND_LEVEL_PIN);
  wind.add(level);
  if (level == ADC_TOP) wind.markOver();
}

void sendSample() {
  stillmark::Sample sample;
  sample.clear();
  sample.sequence = interval.sequence();
  // What the monitor says is the mean of the time it took until then.
  sample.time = interval.middle_us() - PowerMonitor::CONVERSION_US / 2;
  if (!monitor.isPresent()) {
    // What it said before it fell silent is not the mean of the interval.
    voltage = stillmark::Level();
    current = stillmark::Level();
    board.trouble(VOLTAGE + 1, stillmark::Trouble::missing);
    board.trouble(CURRENT + 1, stillmark::Trouble::missing);
  }
  voltage.into(sample, VOLTAGE, COUNTS_PER_STEP, board);
  current.into(sample, CURRENT, COUNTS_PER_STEP, board);
#if WIND == WIND_PULSES
  windPulses.into(sample, WIND_SPEED);
#elif WIND == WIND_LEVEL
  wind.into(sample, WIND_SPEED, WIND_COUNTS_PER_STEP, board);
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
  monitor.begin();
  interval.start(stillmark::deviceTime_us());
}

void loop() {
  stillmark::serve(board, Serial);
  zeroStore.keep();
  buttons.watch(board);
  takeMonitorReading();
  if (WIND == WIND_LEVEL) takeWindLevel();
  if (interval.isOver(stillmark::deviceTime_us(), board.period_us())) sendSample();
}
