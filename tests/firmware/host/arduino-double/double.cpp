#include "Arduino.h"

#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

StandardStream Serial;

namespace {

constexpr int CONTROL = 3;
constexpr int PINS = 32;
constexpr uint32_t CONVERSION_US = 50;
constexpr uint32_t LOOP_US = 5;
/** The clock may be this far ahead of real time before it waits. */
constexpr uint64_t AHEAD_US = 1000;

int levels[PINS];
int states[PINS];
void (*handlers[PINS])();
int resolution_bits = 10;
uint64_t now_us = 0;
/** Until then the host does not read. */
uint64_t unread_us = 0;

uint64_t real_us() {
  timespec time;
  clock_gettime(CLOCK_MONOTONIC, &time);
  return static_cast<uint64_t>(time.tv_sec) * 1000000 + static_cast<uint64_t>(time.tv_nsec) / 1000;
}

void holdToRealTime() {
  static const uint64_t start_us = real_us();
  const uint64_t real = real_us() - start_us;
  if (now_us > real + AHEAD_US) usleep(static_cast<useconds_t>(now_us - real));
}

bool isReady(int descriptor, short events) {
  pollfd one = {descriptor, events, 0};
  return poll(&one, 1, 0) == 1 && (one.revents & events);
}

void setPin(int pin, int state) {
  const bool falls = states[pin] == HIGH && state == LOW;
  states[pin] = state;
  if (falls && handlers[pin] != nullptr) handlers[pin]();
}

/** `level PIN SHARE` (thousandths of the range), `pin PIN 0|1`, `pulse PIN`, `unread LENGTH_US`. */
void obey(const char *line) {
  int pin = 0;
  int value = 0;
  if (sscanf(line, "level %d %d", &pin, &value) == 2 && pin < PINS) {
    levels[pin] = value;
  } else if (sscanf(line, "pin %d %d", &pin, &value) == 2 && pin < PINS) {
    setPin(pin, value);
  } else if (sscanf(line, "pulse %d", &pin) == 1 && pin < PINS) {
    setPin(pin, LOW);
    setPin(pin, HIGH);
  } else if (sscanf(line, "unread %d", &value) == 1) {
    unread_us = now_us + static_cast<uint64_t>(value);
  } else {
    fprintf(stderr, "no such control: %s\n", line);
    exit(2);
  }
}

void takeControls() {
  static char line[64];
  static size_t length = 0;
  char character;
  while (isReady(CONTROL, POLLIN) && ::read(CONTROL, &character, 1) == 1) {
    if (character != '\n' && length < sizeof(line) - 1) {
      line[length++] = character;
      continue;
    }
    line[length] = '\0';
    length = 0;
    obey(line);
  }
}

}  // namespace

void pinMode(uint8_t, uint8_t) {}
int digitalRead(uint8_t pin) { return states[pin]; }
void analogReadResolution(int bits) { resolution_bits = bits; }
uint32_t micros() { return static_cast<uint32_t>(now_us); }
void attachInterrupt(int interrupt, void (*handler)(), int) { handlers[interrupt] = handler; }

int analogRead(uint8_t pin) {
  now_us += CONVERSION_US;
  const int steps = 1 << resolution_bits;
  const int value = levels[pin] * steps / 1000;
  return value < steps ? value : steps - 1;
}

int StandardStream::available() {
  if (from_ == to_ && isReady(STDIN_FILENO, POLLIN)) {
    const ssize_t count = ::read(STDIN_FILENO, input_, sizeof(input_));
    if (count <= 0) exit(0);
    from_ = 0;
    to_ = static_cast<size_t>(count);
  }
  return static_cast<int>(to_ - from_);
}

int StandardStream::read() { return available() > 0 ? input_[from_++] : -1; }

int StandardStream::availableForWrite() {
  return now_us >= unread_us && isReady(STDOUT_FILENO, POLLOUT) ? 64 : 0;
}

size_t StandardStream::write(uint8_t byte) {
  return ::write(STDOUT_FILENO, &byte, 1) == 1 ? 1 : 0;
}

int main() {
  for (int &state : states) state = HIGH;
  setup();
  for (;;) {
    takeControls();
    loop();
    now_us += LOOP_US;
    holdToRealTime();
  }
}
