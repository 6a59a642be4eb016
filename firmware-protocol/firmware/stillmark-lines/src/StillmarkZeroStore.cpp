#include "StillmarkZeroStore.h"

#include "StillmarkChecksum.h"

#if defined(__AVR__)
#include <avr/eeprom.h>
#endif

namespace stillmark {

#if defined(__AVR__)

namespace {

/** From the beginning of the EEPROM. */
uint8_t *addressOf(uint16_t index) { return reinterpret_cast<uint8_t *>(index); }

}  // namespace

uint16_t ZeroStore::checksumOf(const Kept &kept) const {
  uint16_t checksum = CHECKSUM_START;
  const char *texts = reinterpret_cast<const char *>(channels_);
  for (uint16_t at = 0; at < board_.channelCount() * sizeof(Channel); at += 1) {
    checksum = checksumWith(checksum, flashChar(texts + at));
  }
  const char *zeros = reinterpret_cast<const char *>(kept.zeros);
  for (uint8_t at = 0; at < sizeof(kept.zeros); at += 1) {
    checksum = checksumWith(checksum, zeros[at]);
  }
  return checksum;
}

void ZeroStore::restore() {
  eeprom_read_block(&kept_, addressOf(0), sizeof(kept_));
  if (kept_.checksum != checksumOf(kept_)) return;
  for (uint8_t index = 0; index < board_.channelCount(); index += 1) {
    board_.restoreZero(index, kept_.zeros[index]);
  }
}

void ZeroStore::keep() {
  if (board_.takeZeroChange()) {
    for (uint8_t index = 0; index < MOST_CHANNELS; index += 1) {
      kept_.zeros[index] = board_.zero(index);
    }
    kept_.checksum = checksumOf(kept_);
    written_ = 0;
  }
  if (written_ == sizeof(kept_) || !eeprom_is_ready()) return;
  const uint8_t byte = reinterpret_cast<const uint8_t *>(&kept_)[written_];
  eeprom_update_byte(addressOf(written_), byte);
  written_ += 1;
}

#else

void ZeroStore::restore() {}
void ZeroStore::keep() { board_.takeZeroChange(); }

#endif

}  // namespace stillmark
