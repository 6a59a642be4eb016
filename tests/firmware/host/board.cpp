/**
 * The library's board under test, in a time that the test makes: reads one step a line and writes
 * one line for each `drain`, with the bytes sent in hexadecimal.
 */
#include <stdio.h>

#include <iostream>
#include <sstream>
#include <string>

#include "StillmarkBoard.h"
#include "StillmarkDebounce.h"
#include "StillmarkInterval.h"
#include "StillmarkPulses.h"

using namespace stillmark;

namespace {

constexpr Identity IDENTITY = {"Own workshop", "double", "7", "1.0"};
constexpr Channel CHANNELS[] = {
    {"voltage", "mV", "0.25", "1", "0", "0.003", "", 400},
    {"current", "mA", "0.00625", "1", "0", "", "", 1600},
    {"windSpeed", "mps", "0.0004", "1", "0.1", "", "0.2", 0},
};
constexpr uint8_t CHANNEL_COUNT = 3;
static_assert(isSound(IDENTITY) && areSound(CHANNELS), "sound");

Board board(IDENTITY, CHANNELS, CHANNEL_COUNT, {20000, 5000, 1000000}, 500);
PulseCounter pulses = {0, 0};
PulseRate rate;
Debounce contact;
Interval interval;

void sample(std::istream &step, uint32_t now_us) {
  Sample sample;
  sample.clear();
  step >> sample.sequence >> sample.time;
  for (uint8_t index = 0; index < CHANNEL_COUNT; index += 1) {
    std::string count;
    step >> count;
    if (count != "-") sample.set(index, static_cast<int32_t>(std::stol(count)));
  }
  board.sample(sample, now_us);
}

/** What a port does: bytes that the board does not fetch wait in it. */
std::string inPort;

void serve(std::istream &step, uint32_t now_us) {
  int hasRoom;
  step >> hasRoom;
  size_t fetched = 0;
  while (board.isListening() && fetched < inPort.size()) board.receive(inPort[fetched++], now_us);
  inPort.erase(0, fetched);
  board.tick(now_us, hasRoom == 1);
}

void drain(std::istream &step) {
  size_t most;
  step >> most;
  for (; most > 0; most -= 1) {
    const int16_t byte = board.nextByte();
    if (byte < 0) break;
    printf("%02X", static_cast<unsigned>(byte));
  }
  printf("\n");
}

/** Every step is a word and a time in µs, then what the word wants. */
bool takeBoardStep(const std::string &word, uint32_t now_us, std::istream &step) {
  int number;
  if (word == "begin") {
    board.begin(now_us);
  } else if (word == "tick") {
    serve(step, now_us);
  } else if (word == "sample") {
    sample(step, now_us);
  } else if (word == "host") {
    std::string text;
    std::getline(step, text);
    inPort += text.substr(1) + "\n";
  } else if (word == "press" && step >> number) {
    board.press(static_cast<Button>(number), now_us);
  } else if (word == "over" && step >> number) {
    board.trouble(static_cast<uint8_t>(number), Trouble::over);
  } else if (word == "drain") {
    drain(step);
  } else if (word == "period") {
    printf("%u\n", board.period_us());
  } else {
    return false;
  }
  return true;
}

bool takePartStep(const std::string &word, uint32_t now_us, std::istream &step) {
  uint32_t number;
  if (word == "pulse") {
    pulses.take(now_us, 2000);
  } else if (word == "rate") {
    rate.take(pulses, now_us);
    printf("%d\n", rate.isKnown() ? rate.rate_mHz() : -1);
  } else if (word == "contact" && step >> number) {
    printf("%d\n", contact.isPressed(number == 1, now_us));
  } else if (word == "interval") {
    interval.start(now_us);
  } else if (word == "look" && step >> number) {
    const bool isOver = interval.isOver(now_us, number);
    if (isOver) printf("%u %u\n", interval.sequence(), interval.middle_us());
    if (!isOver) printf("-\n");
  } else {
    return false;
  }
  return true;
}

}  // namespace

int main() {
  std::string line;
  while (std::getline(std::cin, line)) {
    std::istringstream step(line);
    std::string word;
    uint32_t now_us;
    step >> word >> now_us;
    if (takeBoardStep(word, now_us, step) || takePartStep(word, now_us, step)) continue;
    std::cerr << "no such step: " << line << "\n";
    return 2;
  }
}
