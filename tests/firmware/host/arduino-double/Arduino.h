/**
 * As much of Arduino as the sketch for 32-bit boards uses, on this computer: a double for tests,
 * not an emulation. Its port is the process's input and output; levels and pins are set through
 * file descriptor 3; its clock counts what things would take and is held to real time.
 */
#pragma once

#include <stddef.h>
#include <stdint.h>

constexpr int LOW = 0;
constexpr int HIGH = 1;
constexpr int INPUT_PULLUP = 2;
constexpr int FALLING = 2;
constexpr uint8_t A0 = 14;
constexpr uint8_t A1 = 15;
constexpr uint8_t A2 = 16;

void pinMode(uint8_t pin, uint8_t mode);
int digitalRead(uint8_t pin);
int analogRead(uint8_t pin);
void analogReadResolution(int bits);
uint32_t micros();
inline int digitalPinToInterrupt(uint8_t pin) { return pin; }
void attachInterrupt(int interrupt, void (*handler)(), int mode);
inline void noInterrupts() {}
inline void interrupts() {}

class Stream {
 public:
  virtual int available() = 0;
  virtual int read() = 0;
  /** Never more than the process's output takes without waiting. */
  virtual int availableForWrite() = 0;
  virtual size_t write(uint8_t byte) = 0;
};

class StandardStream : public Stream {
 public:
  void begin(unsigned long) {}
  int available() override;
  int read() override;
  int availableForWrite() override;
  size_t write(uint8_t byte) override;

 private:
  uint8_t input_[64];
  size_t from_ = 0;
  size_t to_ = 0;
};

extern StandardStream Serial;

void setup();
void loop();
