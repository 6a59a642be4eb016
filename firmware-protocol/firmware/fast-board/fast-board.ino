/*
 * Stillmark lines from a 32-bit board with native USB, by what every Arduino core has: analogRead
 * with 12 bits, micros(), interrupts on pins. When no host reads, lines are dropped: nothing waits.
 *
 *   A0     voltage of the generator, through a divider
 *   A1     voltage over a shunt in its circuit, through an amplifier: the current
 *   A2     anemometer with an analogue output (only with WIND_LEVEL)
 *   D2     anemometer with pulses, contact or open collector to ground (only with WIND_PULSES)
 *   D3     rotor pick-up with pulses to ground (only with ROTOR_PULSES)
 *   D4 D5 D6   buttons to ground: log now, strike the last trial, next run
 *
 * Cautions. Most of these boards bear 3.3 V at a pin, NOT 5 V. Extra-low voltage only: never mains,
 * not even "only to measure it". No pin may see less than 0 V or more than the board's supply: the
 * divider and the amplifier have to make sure of that even with the rotor at its fastest and no
 * load. Keep fingers, hair and cables away from spinning blades; a lamp gets hot. Where children
 * take part, and wherever you are not sure, follow your local rules and ask a qualified person.
 */
#include <StillmarkLines.h>

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
#define MODEL "fast-board"
// Give each board its own, so that the page can tell them apart; "0": none.
#define SERIAL_NUMBER "0"

// What one count is worth. The board sends 16 counts for each of the converter's 4096 steps.
// Numbers are texts in quotes, with a point: "0.25", not "0,25".
//
//   voltage, in mV:  3300 / 65536 * (R1 + R2) / R2    R1 from the generator to A0, R2 to ground
//   current, in mA:  3300 / 65536 / (shunt in ohms) / (gain of the amplifier)
//
// Here: 40 kOhm and 10 kOhm, so up to 16.5 V; a shunt of 0.5 ohm and a gain of 10, so up to 660 mA.
#define VOLTAGE_SCALE "0.251770019531"
#define CURRENT_SCALE "0.01007080078125"

// What a calibration against a good multimeter found: "1" and "0" before one.
// reading = gain * (reading as designed) + offset, in mV and mA.
#define VOLTAGE_GAIN "1"
#define VOLTAGE_OFFSET "0"
#define CURRENT_GAIN "1"
#define CURRENT_OFFSET "0"

// How well gain (a ratio) and offset (in mV, mA) are known, as standard uncertainties; "": unknown.
// Before a calibration: a supply of 3 %, resistors and shunt of 1 %. The converters of some boards
// bend near the ends of their range, which a calibration at two points does not show.
#define VOLTAGE_GAIN_UNCERTAINTY "0.02"
#define VOLTAGE_OFFSET_UNCERTAINTY ""
#define CURRENT_GAIN_UNCERTAINTY "0.02"
#define CURRENT_OFFSET_UNCERTAINTY ""

// Wind from pulses, in m/s: metres of wind for one pulse, divided by 1000. Where the data sheet
// says "0.4 m/s for 1 pulse a second", or "2.5 pulses a metre", that is 0.4 / 1000.
#define WIND_PULSE_SCALE "0.0004"
// Wind from a level, in m/s: (m/s at 3.3 V) / 65536. Here 32 m/s at 3.3 V. The offset is in m/s.
#define WIND_LEVEL_SCALE "0.00048828125"
#define WIND_OFFSET "0"
// A contact bounces: pulses closer together than this are one, in microseconds.
#define WIND_DEAD_TIME_US 2000

// Rotor speed in rpm: 60 / (pulses for one turn) / 1000. Here 2 pulses for one turn.
#define ROTOR_SCALE "0.03"
#define ROTOR_DEAD_TIME_US 500

// Time between samples until the host asks for another, in microseconds. 20000 us are one period of
// 50 Hz mains, so that its hum averages out; take 50000 us where mains have 60 Hz (three periods).
#define PERIOD_US 20000

// 1: the port says how much it takes, so nothing ever waits for a host that does not read. With
// some board packages it always says "nothing", and so nothing is ever sent: then 0, which may
// wait.
#ifndef PORT_TELLS_ROOM
#define PORT_TELLS_ROOM 1
#endif

// ---------------------------------------------------------------------------------------------

// What goes out in one loop to a port that does not tell.
constexpr int PORT_ROOM = 64;

constexpr uint8_t VOLTAGE_PIN = A0;
constexpr uint8_t CURRENT_PIN = A1;
constexpr uint8_t WIND_LEVEL_PIN = A2;
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

constexpr uint8_t ADC_BITS = 12;
// What the converter gives at its upper end: the true value may lie anywhere above.
constexpr int ADC_TOP = 4095;
constexpr int32_t COUNTS_PER_STEP = 16;
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

constexpr stillmark::Pace PACE = {PERIOD_US, 1000, 500000};
static_assert(PERIOD_US >= 1000 && PERIOD_US <= 500000, "PERIOD_US: from 1000 to 500000");

stillmark::Board board(IDENTITY, CHANNEL_TEXTS, CHANNELS, PACE, 1);
stillmark::Buttons buttons(LOG_PIN, STRIKE_PIN, NEXT_PIN);
stillmark::Interval interval;

// What is being averaged for the running sample.
stillmark::Level voltage;
stillmark::Level current;
stillmark::Level wind;

stillmark::PulseInput windPulses;
stillmark::PulseInput rotorPulses;

void onWindPulse() { windPulses.take(WIND_DEAD_TIME_US); }
void onRotorPulse() { rotorPulses.take(ROTOR_DEAD_TIME_US); }

void convert(stillmark::Level &level, uint8_t pin) {
  const int value = analogRead(pin);
  level.add(value);
  if (value >= ADC_TOP) level.markOver();
}

void sendSample() {
  stillmark::Sample sample;
  sample.clear();
  sample.sequence = interval.sequence();
  sample.time = interval.middle_us();
  voltage.into(sample, VOLTAGE, COUNTS_PER_STEP, board);
  current.into(sample, CURRENT, COUNTS_PER_STEP, board);
#if WIND == WIND_PULSES
  windPulses.into(sample, WIND_SPEED);
#elif WIND == WIND_LEVEL
  wind.into(sample, WIND_SPEED, COUNTS_PER_STEP, board);
#endif
#if ROTOR_PULSES
  rotorPulses.into(sample, ROTOR_SPEED);
#endif
  board.sample(sample, stillmark::deviceTime_us());
}

void setup() {
  // Native USB has no speed; the number is there because `begin` wants one.
  Serial.begin(115200);
  analogReadResolution(ADC_BITS);
  buttons.begin();
  if (WIND == WIND_PULSES) windPulses.begin(WIND_PULSE_PIN, onWindPulse);
  if (ROTOR_PULSES) rotorPulses.begin(ROTOR_PIN, onRotorPulse);
  board.begin(stillmark::deviceTime_us());
  interval.start(stillmark::deviceTime_us());
}

void loop() {
  stillmark::serve(board, Serial, PORT_TELLS_ROOM ? Serial.availableForWrite() : PORT_ROOM);
  buttons.watch(board);
  convert(voltage, VOLTAGE_PIN);
  convert(current, CURRENT_PIN);
  if (WIND == WIND_LEVEL) convert(wind, WIND_LEVEL_PIN);
  if (interval.isOver(stillmark::deviceTime_us(), board.period_us())) sendSample();
}
