#pragma once

#include <stdint.h>

namespace stillmark {

/** sum / count, rounded to the nearest, halves away from 0. */
inline int32_t meanOf(int32_t sum, uint16_t count) {
  const int32_t half = count / 2;
  return (sum < 0 ? sum - half : sum + half) / static_cast<int32_t>(count);
}

}  // namespace stillmark
