/**
 * What a board says of itself, as texts in program memory, checked while compiling.
 */
#pragma once

#include <stdint.h>

#include "StillmarkFlash.h"

namespace stillmark {

constexpr uint8_t MOST_CHANNELS = 16;

/** The four fields of an IEEE 488.2 identification; "0" where there is nothing to say. */
struct Identity {
  char maker[41];
  char model[41];
  char serial[41];
  char firmware[41];
};

/**
 * value = gain · scale · (count − zero) + offset, in `unit`. Numbers are texts, so that no fraction
 * is ever computed on the board: "0.25", "-3", "1.5e-3".
 */
struct Channel {
  char quantity[14];
  char unit[6];
  /** What one count is worth by design. */
  char scale[20];
  /** What a calibration found: "1" and "0" before one. */
  char gain[16];
  char offset[16];
  /** Standard uncertainties, of the gain (a ratio) and of the offset (in the unit); "" unknown. */
  char gainUncertainty[16];
  char offsetUncertainty[16];
  /** The host may take as zero what lies within this many counts of 0; 0: it has no zero. */
  int32_t zeroLimit;
};

/** 1 or more printable characters other than `$`, `*` and the comma. */
constexpr bool isText(const char *text) {
  return *text >= ' ' && *text <= '~' && *text != '$' && *text != '*' && *text != ',' &&
         (text[1] == '\0' || isText(text + 1));
}

namespace decimal {

constexpr bool isDigit(char character) { return character >= '0' && character <= '9'; }
constexpr const char *afterDigits(const char *text) {
  return isDigit(*text) ? afterDigits(text + 1) : text;
}
constexpr const char *afterSign(const char *text) {
  return *text == '-' || *text == '+' ? text + 1 : text;
}
constexpr bool isDigitsToEnd(const char *text) {
  return isDigit(*text) && *afterDigits(text) == '\0';
}
constexpr bool isEndOrExponent(const char *text) {
  return *text == '\0' || ((*text == 'e' || *text == 'E') && isDigitsToEnd(afterSign(text + 1)));
}
constexpr bool isFraction(const char *text) {
  return isDigit(*text) && isEndOrExponent(afterDigits(text));
}
constexpr bool isUnsigned(const char *text) {
  return *text == '.' ? isFraction(text + 1)
         : !isDigit(*text)            ? false
         : *afterDigits(text) == '.'  ? isFraction(afterDigits(text) + 1)
                                      : isEndOrExponent(afterDigits(text));
}

}  // namespace decimal

/** A decimal number with a point, not a comma. */
constexpr bool isDecimal(const char *text) { return decimal::isUnsigned(decimal::afterSign(text)); }

constexpr bool isUncertainty(const char *text) {
  return *text == '\0' || decimal::isUnsigned(text);
}

constexpr bool isSound(const Identity &identity) {
  return isText(identity.maker) && isText(identity.model) && isText(identity.serial) &&
         isText(identity.firmware);
}

constexpr bool isSound(const Channel &channel) {
  return isText(channel.quantity) && isText(channel.unit) && isDecimal(channel.scale) &&
         isDecimal(channel.gain) && isDecimal(channel.offset) &&
         isUncertainty(channel.gainUncertainty) && isUncertainty(channel.offsetUncertainty);
}

template <uint8_t COUNT>
constexpr bool areSound(const Channel (&channels)[COUNT], uint8_t from = 0) {
  return COUNT <= MOST_CHANNELS &&
         (from == COUNT || (isSound(channels[from]) && areSound(channels, from + 1)));
}

}  // namespace stillmark
