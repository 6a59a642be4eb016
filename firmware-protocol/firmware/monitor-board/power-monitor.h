/**
 * A 12-bit current and power monitor on I²C, of the common kind with these registers: 0
 * configuration, 1 shunt voltage (10 µV a step), 2 bus voltage (4 mV a step, with flags), 3 power,
 * 5 calibration. Register values: Texas Instruments data sheet SBOS448.
 *
 * The current is worked out from the shunt voltage by the channel's scale, so the calibration
 * register stays 0 and the monitor's own current and power are not used.
 *
 * It measures without a pause, first the shunt, then the bus, each as the mean of two conversions
 * of 12 bits, which takes 1.06 ms: a pair of readings every 2.13 ms.
 */
#pragma once

#include <stdint.h>

struct MonitorReading {
  /** In steps of 10 µV. */
  int16_t shunt;
  /** In steps of 4 mV. */
  uint16_t bus;
  /** The monitor could not compute with what it measured. */
  bool isOverflow;
};

class PowerMonitor {
 public:
  /** How long a pair of readings takes. */
  static constexpr uint32_t CONVERSION_US = 2130;

  /** `shuntRange_mV`: 40, 80, 160 or 320. */
  PowerMonitor(uint8_t address, uint16_t shuntRange_mV)
      : address_(address), shuntRange_mV_(shuntRange_mV) {}

  void begin();
  /** Call it in every loop; true when a pair of readings has come. Never waits longer than 5 ms. */
  bool poll(uint32_t now_us, MonitorReading &reading);
  /** It answered when it was last asked. */
  bool isPresent() const { return isPresent_; }
  /** A shunt voltage of this much, either way, may be any larger one. */
  int16_t shuntTop() const { return static_cast<int16_t>(shuntRange_mV_ * 100); }

 private:
  uint16_t configuration() const;
  bool configure();
  bool isConfigured();
  bool read(uint8_t which, uint16_t &value);
  bool write(uint8_t which, uint16_t value);

  const uint8_t address_;
  const uint16_t shuntRange_mV_;
  bool isPresent_ = false;
  uint32_t checkedAt_us_ = 0;
  uint32_t readAt_us_ = 0;
  uint32_t askedAt_us_ = 0;
};
