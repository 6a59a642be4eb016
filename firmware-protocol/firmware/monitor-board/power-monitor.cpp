#include "power-monitor.h"

#include <Arduino.h>
#include <Wire.h>

namespace {

constexpr uint8_t CONFIGURATION = 0;
constexpr uint8_t SHUNT_VOLTAGE = 1;
constexpr uint8_t BUS_VOLTAGE = 2;
constexpr uint8_t POWER = 3;

// Configuration: 32 V; both as the mean of two conversions of 12 bits; without a pause.
constexpr uint16_t BUS_32V = 1 << 13;
constexpr uint16_t BUS_MEAN_OF_2 = 9 << 7;
constexpr uint16_t SHUNT_MEAN_OF_2 = 9 << 3;
constexpr uint16_t CONTINUOUS = 7;
// The shunt's range is 40 mV, doubled up to three times.
constexpr uint16_t NARROWEST_MV = 40;
constexpr uint16_t RANGE_STEP = 1 << 11;

// Flags of the bus voltage register, below its 13 bits.
constexpr uint16_t IS_READY = 1 << 1;
constexpr uint16_t IS_OVERFLOW = 1 << 0;
constexpr uint8_t BUS_SHIFT = 3;

constexpr uint32_t CLOCK_HZ = 400000;
// A transfer takes 0.1 ms: a bus that is held longer is stuck.
constexpr uint32_t TIMEOUT_US = 1000;
constexpr uint32_t CHECK_US = 1000000;
// A new pair is not asked for before it can be there (the monitor's clock may be 10 % fast) …
constexpr uint32_t EARLIEST_US = PowerMonitor::CONVERSION_US * 9 / 10;
// … then this often …
constexpr uint32_t ASK_US = 200;
// … and when none has come for so long, something is wrong.
constexpr uint32_t SILENCE_US = 50000;

}  // namespace

void PowerMonitor::begin() {
  Wire.begin();
  Wire.setClock(CLOCK_HZ);
  Wire.setWireTimeout(TIMEOUT_US, true);
  isPresent_ = configure();
  checkedAt_us_ = readAt_us_ = askedAt_us_ = micros();
}

bool PowerMonitor::poll(uint32_t now_us, MonitorReading &reading) {
  if (now_us - checkedAt_us_ >= CHECK_US) {
    checkedAt_us_ = now_us;
    // One that lost its supply for a moment has forgotten its configuration.
    isPresent_ = (isPresent_ && isConfigured()) || configure();
    if (isPresent_) readAt_us_ = now_us;
  }
  const bool isTooEarly = now_us - readAt_us_ < EARLIEST_US || now_us - askedAt_us_ < ASK_US;
  if (!isPresent_ || isTooEarly) return false;
  askedAt_us_ = now_us;
  uint16_t bus;
  isPresent_ = read(BUS_VOLTAGE, bus) && now_us - readAt_us_ < SILENCE_US;
  if (!isPresent_ || !(bus & IS_READY)) return false;
  uint16_t shunt;
  uint16_t power;
  // Reading the power makes the monitor take back that it is ready.
  isPresent_ = read(SHUNT_VOLTAGE, shunt) && read(POWER, power);
  if (!isPresent_) return false;
  readAt_us_ = now_us;
  reading.shunt = static_cast<int16_t>(shunt);
  reading.bus = bus >> BUS_SHIFT;
  reading.isOverflow = bus & IS_OVERFLOW;
  return true;
}

uint16_t PowerMonitor::configuration() const {
  uint16_t range = 0;
  for (uint16_t top_mV = NARROWEST_MV; top_mV < shuntRange_mV_; top_mV *= 2) range += RANGE_STEP;
  return BUS_32V | range | BUS_MEAN_OF_2 | SHUNT_MEAN_OF_2 | CONTINUOUS;
}

bool PowerMonitor::configure() { return write(CONFIGURATION, configuration()) && isConfigured(); }

bool PowerMonitor::isConfigured() {
  uint16_t value;
  return read(CONFIGURATION, value) && value == configuration();
}

bool PowerMonitor::read(uint8_t which, uint16_t &value) {
  Wire.beginTransmission(address_);
  Wire.write(which);
  constexpr uint8_t SIZE = 2;
  if (Wire.endTransmission() != 0 || Wire.requestFrom(address_, SIZE) != SIZE) return false;
  const uint8_t high = static_cast<uint8_t>(Wire.read());
  const uint8_t low = static_cast<uint8_t>(Wire.read());
  value = static_cast<uint16_t>(high << 8 | low);
  return true;
}

bool PowerMonitor::write(uint8_t which, uint16_t value) {
  Wire.beginTransmission(address_);
  Wire.write(which);
  Wire.write(static_cast<uint8_t>(value >> 8));
  Wire.write(static_cast<uint8_t>(value));
  return Wire.endTransmission() == 0;
}
