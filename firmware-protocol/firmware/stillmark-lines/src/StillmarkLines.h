/**
 * Stillmark lines for a board: include this one.
 *
 * Everything but StillmarkArduino.h and StillmarkZeroStore.h is plain C++11 without Arduino, so
 * that it runs, and is tested, on any computer. Nothing allocates, nothing blocks, time is an
 * argument.
 */
#pragma once

#include "StillmarkArduino.h"
#include "StillmarkBoard.h"
#include "StillmarkChannel.h"
#include "StillmarkInterval.h"
#include "StillmarkLevel.h"
#include "StillmarkZeroStore.h"
