#include "StillmarkBoard.h"

#include "StillmarkFlash.h"

namespace stillmark {

namespace {

/** A reader that comes late waits at most 10 s; less, because lines wait for each other. */
constexpr uint32_t AGAIN_US = 9500000;
/** A sign of life at least once a second. */
constexpr uint32_t BEAT_US = 900000;
constexpr uint32_t SECOND_US = 1000000;
constexpr uint32_t UNHEARD_US = 1000000;

}  // namespace

Board::Board(const Identity &identity, const Channel *channels, uint8_t channelCount,
             const Pace &pace, uint32_t grain_us)
    : identity_(identity),
      channels_(channels),
      channelCount_(channelCount),
      pace_(pace),
      grain_us_(grain_us),
      announced_(lastLine()) {}

void Board::begin(uint32_t now_us) {
  secondAt_us_ = saidAt_us_ = roomAt_us_ = now_us;
  // An empty line ends what the start-up garbled.
  others_.put('\n');
  others_.commit();
  announce(Cause::boot, now_us);
}

void Board::tick(uint32_t now_us, bool hasRoom) {
  if (now_us - secondAt_us_ >= SECOND_US) {
    secondAt_us_ = now_us;
    troubles_.startSecond();
  }
  finishZero(now_us);
  watchRoom(now_us, hasRoom);
  if (!isUnheard_ && others_.isEmpty()) writeNextDue(now_us);
}

void Board::watchRoom(uint32_t now_us, bool hasRoom) {
  if (hasRoom) {
    roomAt_us_ = now_us;
    if (isUnheard_) announce(Cause::again, now_us);
    isUnheard_ = false;
  } else if (now_us - roomAt_us_ >= UNHEARD_US) {
    isUnheard_ = true;
    forget();
  }
}

/** Where nobody reads nothing is kept: presses and answers would be false to whoever comes later. */
void Board::forget() {
  samples_.clear(sending_ == &samples_);
  others_.clear(sending_ == &others_);
  announced_ = lastLine();
  hasAnswer_ = false;
  presses_.forget();
  troubles_ = Troubles();
  reader_ = RequestReader();
}

/** Writes the line that is due most, if any. */
void Board::writeNextDue(uint32_t now_us) {
  uint8_t channel;
  Trouble trouble;
  Press press;
  if (hasAnswer_) {
    hasAnswer_ = !writeAnswer(others_, asked_, result_);
  } else if (isAnnouncing()) {
    writeAnnouncementLine(now_us);
  } else if (presses_.next(now_us, press)) {
    writeButton(others_, press);
  } else if (troubles_.next(channel, trouble)) {
    writeTrouble(others_, channel, trouble);
  } else if (isToAnnounceAgain_ || now_us - announcedAt_us_ >= AGAIN_US) {
    announce(Cause::again, now_us);
  } else if (now_us - saidAt_us_ >= BEAT_US) {
    saidAt_us_ = now_us;
    writeBeat(others_, now_us);
  }
}

void Board::announce(Cause cause, uint32_t now_us) {
  // One that has begun is finished first: a host that asks on and on would never get a whole one.
  isToAnnounceAgain_ = isAnnouncing();
  if (isToAnnounceAgain_) return;
  announced_ = 0;
  cause_ = cause;
  announcedAt_us_ = now_us;
}

void Board::writeAnnouncementLine(uint32_t now_us) {
  if (announced_ == 0) {
    writeOpening(others_, cause_, channelCount_);
    announcedAt_us_ = now_us;
  } else if (announced_ == 1) {
    writeIdentity(others_, identity_);
  } else if (announced_ < channelCount_ + 2) {
    const uint8_t index = static_cast<uint8_t>(announced_ - 2);
    writeChannel(others_, static_cast<uint8_t>(index + 1), channels_[index], zeros_[index]);
  } else {
    writePace(others_, pace_);
  }
  announced_ += 1;
}

/** Samples come last. */
Queue *Board::nextQueue() {
  if (!others_.isEmpty()) return &others_;
  // After a start, samples would say nothing before the channels are announced.
  const bool isOpening = cause_ == Cause::boot && isAnnouncing();
  return samples_.isEmpty() || isOpening ? nullptr : &samples_;
}

bool Board::sample(const Sample &sample, uint32_t now_us) {
  zeroTaking_.take(sample);
  if (isUnheard_ || !writeSample(samples_, sample, channelCount_)) return false;
  saidAt_us_ = now_us;
  return true;
}

void Board::receive(char byte, uint32_t now_us) {
  const Request request = reader_.take(byte);
  if (request.kind != Request::Kind::none) obey(request, now_us);
}

void Board::obey(const Request &request, uint32_t now_us) {
  switch (request.kind) {
    case Request::Kind::identify:
      announce(Cause::again, now_us);
      break;
    case Request::Kind::pace:
      answer(Asked::pace, setPace(request.value, now_us));
      break;
    case Request::Kind::zero:
      startZero(static_cast<uint8_t>(request.value), now_us);
      break;
    default:
      answer(Asked::other, Result::unknown);
  }
}

void Board::answer(Asked asked, Result result) {
  hasAnswer_ = true;
  asked_ = asked;
  result_ = result;
}

Result Board::setPace(uint32_t period_us, uint32_t now_us) {
  if (period_us < pace_.shortest_us || period_us > pace_.longest_us) return Result::range;
  pace_.period_us = (period_us + grain_us_ / 2) / grain_us_ * grain_us_;
  announce(Cause::again, now_us);
  return Result::done;
}

void Board::startZero(uint8_t channel, uint32_t now_us) {
  const uint8_t index = static_cast<uint8_t>(channel - 1);
  if (zeroTaking_.isRunning()) {
    answer(Asked::zero, Result::busy);
  } else if (channel > channelCount_ || zeroLimit(index) == 0) {
    answer(Asked::zero, Result::range);
  } else {
    zeroTaking_.start(index, zeroLimit(index), now_us);
  }
}

void Board::finishZero(uint32_t now_us) {
  if (hasAnswer_ || !zeroTaking_.isDone(now_us)) return;
  if (zeroTaking_.finish(zeros_[zeroTaking_.index()])) {
    hasZeroChange_ = true;
    answer(Asked::zero, Result::done);
    announce(Cause::again, now_us);
  } else {
    answer(Asked::zero, Result::range);
  }
}

int32_t Board::zeroLimit(uint8_t index) const { return flashI32(&channels_[index].zeroLimit); }

bool Board::takeZeroChange() {
  const bool hasChange = hasZeroChange_;
  hasZeroChange_ = false;
  return hasChange;
}

}  // namespace stillmark
