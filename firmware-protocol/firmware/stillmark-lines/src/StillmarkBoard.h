/**
 * A board's side of the conversation: when which line is due, what became of a request.
 *
 * Plain C++: the sketch calls `tick` often, hands in samples and presses, and carries bytes between
 * this and the port (StillmarkArduino.h does). All times are device time in µs, modulo 2³².
 *
 * Samples wait in a queue of their own and go when no other line waits. So what a slow line loses
 * is whole samples, never a part of a line, and an announcement always gets through.
 */
#pragma once

#include <stdint.h>

#include "StillmarkChannel.h"
#include "StillmarkFrames.h"
#include "StillmarkPresses.h"
#include "StillmarkQueue.h"
#include "StillmarkRequest.h"
#include "StillmarkTroubles.h"
#include "StillmarkZero.h"

namespace stillmark {

class Board {
 public:
  /**
   * `identity` and `channels` are in program memory. The board can only sample at multiples of
   * `grain_us`; all of `pace` must be such.
   */
  Board(const Identity &identity, const Channel *channels, uint8_t channelCount, const Pace &pace,
        uint32_t grain_us);

  /** Takes over a zero that was kept from an earlier run; before `begin`. */
  void restoreZero(uint8_t index, int32_t zero) { zeros_[index] = zero; }
  void begin(uint32_t now_us);

  /** Call it often. `hasRoom`: the port would take a byte now. */
  void tick(uint32_t now_us, bool hasRoom);
  /** While false, leave the host's bytes in the port: an answer has to go out first. */
  bool isListening() const { return !hasAnswer_; }
  void receive(char byte, uint32_t now_us);
  /** The next byte for the port; -1: none. */
  int16_t nextByte() {
    if (sending_ == nullptr) sending_ = nextQueue();
    if (sending_ == nullptr) return -1;
    const char byte = sending_->take();
    if (byte == '\n') sending_ = nullptr;
    return byte;
  }

  /** Takes a sample to send; false where it had to be dropped. */
  bool sample(const Sample &sample, uint32_t now_us);
  void press(Button button, uint32_t now_us) { presses_.add(button, now_us); }
  /** Tells what is wrong now; call it again as long as it lasts. Channel 0 is the board. */
  void trouble(uint8_t channel, Trouble trouble) { troubles_.report(channel, trouble); }

  /** Time between samples, as the host set it. */
  uint32_t period_us() const { return pace_.period_us; }
  uint8_t channelCount() const { return channelCount_; }
  int32_t zero(uint8_t index) const { return zeros_[index]; }
  /** True once after a zero was taken: the sketch may keep it. */
  bool takeZeroChange();

 private:
  /** Opening, identity, channels, pace. */
  uint8_t lastLine() const { return static_cast<uint8_t>(channelCount_ + 3); }
  bool isAnnouncing() const { return announced_ < lastLine(); }
  void announce(Cause cause, uint32_t now_us);
  void writeAnnouncementLine(uint32_t now_us);
  void writeNextDue(uint32_t now_us);
  Queue *nextQueue();
  void watchRoom(uint32_t now_us, bool hasRoom);
  void forget();
  void obey(const Request &request, uint32_t now_us);
  Result setPace(uint32_t period_us, uint32_t now_us);
  void startZero(uint8_t channel, uint32_t now_us);
  void finishZero(uint32_t now_us);
  int32_t zeroLimit(uint8_t index) const;
  void answer(Asked asked, Result result);

  /** The queue that `nextByte` is in the middle of a line of. */
  Queue *sending_ = nullptr;
  Queue samples_;
  /** Holds one line at a time. */
  Queue others_;

  const Identity &identity_;
  const Channel *const channels_;
  const uint8_t channelCount_;
  Pace pace_;
  const uint32_t grain_us_;
  int32_t zeros_[MOST_CHANNELS] = {};
  bool hasZeroChange_ = false;

  /** Lines of the announcement that are written. */
  uint8_t announced_;
  Cause cause_ = Cause::boot;
  bool isToAnnounceAgain_ = false;
  uint32_t announcedAt_us_ = 0;

  bool hasAnswer_ = false;
  Asked asked_ = Asked::other;
  Result result_ = Result::done;

  Presses presses_;
  Troubles troubles_;
  ZeroTaking zeroTaking_;
  RequestReader reader_;

  uint32_t secondAt_us_ = 0;
  /** When a sample or a beat was last said. */
  uint32_t saidAt_us_ = 0;
  /** When the port last had room. */
  uint32_t roomAt_us_ = 0;
  /** The port had no room for a second: nobody reads. */
  bool isUnheard_ = false;
};

}  // namespace stillmark
