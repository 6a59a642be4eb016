/** What is wrong: told when it begins and once a second while it lasts, however it flickers. */
#pragma once

#include <stdint.h>

#include "StillmarkFrames.h"

namespace stillmark {

class Troubles {
 public:
  /** Tells what is wrong now; call it again as long as it lasts. Channel 0 is the board. */
  void report(uint8_t channel, Trouble trouble) { seen_[channel] |= bitOf(trouble); }

  /** From now on each may be said once more; what has not been said yet still is. */
  void startSecond() {
    for (uint8_t channel = 0; channel <= MOST_CHANNELS; channel += 1) {
      seen_[channel] &= static_cast<uint8_t>(~said_[channel]);
      said_[channel] = 0;
    }
  }

  /** Finds one that was not said this second, and takes it as said; false when there is none. */
  bool next(uint8_t &channel, Trouble &trouble) {
    for (channel = 0; channel <= MOST_CHANNELS; channel += 1) {
      const uint8_t due = seen_[channel] & static_cast<uint8_t>(~said_[channel]);
      for (uint8_t kind = 0; due >> kind; kind += 1) {
        trouble = static_cast<Trouble>(kind);
        if (!(due & bitOf(trouble))) continue;
        said_[channel] |= bitOf(trouble);
        return true;
      }
    }
    return false;
  }

 private:
  static uint8_t bitOf(Trouble trouble) {
    return static_cast<uint8_t>(1 << static_cast<uint8_t>(trouble));
  }

  /** A bit for each trouble, by channel. */
  uint8_t seen_[MOST_CHANNELS + 1] = {};
  uint8_t said_[MOST_CHANNELS + 1] = {};
};

}  // namespace stillmark
