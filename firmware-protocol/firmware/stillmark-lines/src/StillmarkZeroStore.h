/**
 * Keeps the zeros over a power cut, in the EEPROM of AVR boards. Opening the port resets most of
 * them: without this every reconnection would take back the calibration.
 *
 * Kept zeros count only for the very channels they were taken with: after another scale or another
 * order was loaded they are 0 again. Where there is no EEPROM (`__AVR__` not defined) nothing is
 * kept and the announcement says 0.
 */
#pragma once

#include <stdint.h>

#include "StillmarkBoard.h"

namespace stillmark {

class ZeroStore {
 public:
  /** `channels` as given to the board. */
  ZeroStore(Board &board, const Channel *channels) : board_(board), channels_(channels) {}
  /** Gives kept zeros to the board; before its `begin`. */
  void restore();
  /** Call it in every loop: writes at most one byte, and never waits. */
  void keep();

 private:
  struct Kept {
    int32_t zeros[MOST_CHANNELS];
    /** Of the channels' texts and the zeros. */
    uint16_t checksum;
  };

  uint16_t checksumOf(const Kept &kept) const;

  Board &board_;
  const Channel *const channels_;
  Kept kept_ = {};
  /** The next byte of `kept_` to write; its size when all are. */
  uint8_t written_ = sizeof(Kept);
};

}  // namespace stillmark
