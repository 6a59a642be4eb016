#include "StillmarkFrames.h"

#include "StillmarkFlash.h"
#include "StillmarkWriter.h"

namespace stillmark {

namespace {

const char OPENING[] STILLMARK_FLASH = "stillmark";
const char IDENTITY[] STILLMARK_FLASH = "identity";
const char CHANNEL[] STILLMARK_FLASH = "channel";
const char PACE[] STILLMARK_FLASH = "pace";
const char SAMPLE[] STILLMARK_FLASH = "s";
const char BUTTON[] STILLMARK_FLASH = "button";
const char BEAT[] STILLMARK_FLASH = "beat";
const char TROUBLE[] STILLMARK_FLASH = "trouble";
const char ANSWER[] STILLMARK_FLASH = "answer";
const char MICROSECONDS[] STILLMARK_FLASH = "us";

/** Words in the order of their enumerations. */
typedef const char Word[8];
Word CAUSES[] STILLMARK_FLASH = {"boot", "again"};
Word BUTTONS[] STILLMARK_FLASH = {"log", "strike", "next"};
Word TROUBLES[] STILLMARK_FLASH = {"missing", "over", "under", "supply"};
Word ASKED[] STILLMARK_FLASH = {"pace", "zero", "other"};
Word RESULTS[] STILLMARK_FLASH = {"done", "range", "busy", "unknown"};

template <typename Kind>
const char *wordOf(Word *words, Kind kind) {
  return words[static_cast<uint8_t>(kind)];
}

}  // namespace

bool writeOpening(Queue &queue, Cause cause, uint8_t channelCount) {
  return Writer(queue, OPENING)
      .number(GRAMMAR_VERSION)
      .flash(wordOf(CAUSES, cause))
      .flash(MICROSECONDS)
      .number(channelCount)
      .seal();
}

bool writeIdentity(Queue &queue, const Identity &identity) {
  return Writer(queue, IDENTITY)
      .flash(identity.maker)
      .flash(identity.model)
      .flash(identity.serial)
      .flash(identity.firmware)
      .seal();
}

bool writeChannel(Queue &queue, uint8_t number, const Channel &channel, int32_t zero) {
  return Writer(queue, CHANNEL)
      .number(number)
      .flash(channel.quantity)
      .flash(channel.unit)
      .flash(channel.scale)
      .whole(zero)
      .flash(channel.gain)
      .flash(channel.offset)
      .flash(channel.gainUncertainty)
      .flash(channel.offsetUncertainty)
      .seal();
}

bool writePace(Queue &queue, const Pace &pace) {
  return Writer(queue, PACE)
      .number(pace.period_us)
      .number(pace.shortest_us)
      .number(pace.longest_us)
      .seal();
}

bool writeSample(Queue &queue, const Sample &sample, uint8_t channelCount) {
  Writer line(queue, SAMPLE);
  line.number(sample.sequence).number(sample.time);
  for (uint8_t index = 0; index < channelCount; index += 1) {
    if (sample.has(index)) {
      line.whole(sample.counts[index]);
    } else {
      line.nothing();
    }
  }
  return line.seal();
}

bool writeButton(Queue &queue, const Press &press) {
  return Writer(queue, BUTTON)
      .number(press.number)
      .number(press.time)
      .flash(wordOf(BUTTONS, press.button))
      .seal();
}

bool writeBeat(Queue &queue, uint32_t time) {
  return Writer(queue, BEAT).number(GRAMMAR_VERSION).number(time).seal();
}

bool writeTrouble(Queue &queue, uint8_t channel, Trouble trouble) {
  return Writer(queue, TROUBLE).number(channel).flash(wordOf(TROUBLES, trouble)).seal();
}

bool writeAnswer(Queue &queue, Asked asked, Result result) {
  return Writer(queue, ANSWER).flash(wordOf(ASKED, asked)).flash(wordOf(RESULTS, result)).seal();
}

}  // namespace stillmark
