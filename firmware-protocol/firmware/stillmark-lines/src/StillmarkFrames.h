/** The lines that a board says, one function each; false where the queue had no room. */
#pragma once

#include <stdint.h>

#include "StillmarkChannel.h"
#include "StillmarkQueue.h"

namespace stillmark {

constexpr uint16_t GRAMMAR_VERSION = 1;

enum class Cause : uint8_t { boot, again };
enum class Button : uint8_t { log, strike, next };
enum class Trouble : uint8_t { missing, over, under, supply };
enum class Asked : uint8_t { pace, zero, other };
enum class Result : uint8_t { done, range, busy, unknown };

struct Pace {
  uint32_t period_us;
  uint32_t shortest_us;
  uint32_t longest_us;
};

/** The most bytes a sample line has, with counts of up to seven characters. */
constexpr uint32_t longestSample(uint8_t channelCount) { return 25 + 8u * channelCount; }

constexpr uint32_t roundedUp(uint32_t value, uint32_t grain) {
  return (value + grain - 1) / grain * grain;
}

/**
 * The shortest time between samples that leaves a quarter of the line free, in whole `grain_us`,
 * with ten bits to a character.
 */
constexpr uint32_t shortestPeriod_us(uint8_t channelCount, uint32_t baud, uint32_t grain_us) {
  return roundedUp(longestSample(channelCount) * (1000000 / 3 * 4 / (baud / 100)) / 10, grain_us);
}

struct Press {
  uint16_t number;
  uint32_t time;
  Button button;
};

struct Sample {
  /** Counts samples made, sent or not. */
  uint16_t sequence;
  /** The middle of the interval that the counts were averaged over. */
  uint32_t time;
  int32_t counts[MOST_CHANNELS];
  /** Bit 0 for the first channel; a channel whose bit is not set has no reading. */
  uint16_t present;

  void clear() { present = 0; }
  void set(uint8_t index, int32_t count) {
    counts[index] = count;
    present = static_cast<uint16_t>(present | (1u << index));
  }
  bool has(uint8_t index) const { return (present >> index) & 1; }
};

/** Device time is always in microseconds. */
bool writeOpening(Queue &queue, Cause cause, uint8_t channelCount);
/** `identity` is in program memory. */
bool writeIdentity(Queue &queue, const Identity &identity);
/** `channel` is in program memory; `number` counts from 1. */
bool writeChannel(Queue &queue, uint8_t number, const Channel &channel, int32_t zero);
bool writePace(Queue &queue, const Pace &pace);
bool writeSample(Queue &queue, const Sample &sample, uint8_t channelCount);
bool writeButton(Queue &queue, const Press &press);
bool writeBeat(Queue &queue, uint32_t time);
/** Channel 0 is the board itself. */
bool writeTrouble(Queue &queue, uint8_t channel, Trouble trouble);
bool writeAnswer(Queue &queue, Asked asked, Result result);

}  // namespace stillmark
