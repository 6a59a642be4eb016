/* The emulated board: one microcontroller and what is wired to it. */
#ifndef BOARD_H
#define BOARD_H

#include <stdbool.h>
#include <stdint.h>

#include "analogue.h"
#include "digital.h"
#include "line.h"
#include "monitor.h"
#include "simavr/sim_avr.h"
#include "stimuli.h"

typedef struct Board {
	avr_t *avr;
	Analogue analogue;
	Digital digital;
	Line line;
	MonitorBus monitor;
	Stimuli stimuli;
	/* The reset button was pressed: between two slices, not among simavr's own timers. */
	bool reset_due;
	/* Cycles that the processor slept: its idle time, if the firmware sleeps at all. */
	uint64_t slept_cycles;
	/* The longest that the emulation was behind real time, seconds. */
	double latest_s;
} Board;

/* Board time: seconds since power was first applied; a reset does not set it back. */
double board_time_s(const Board *board);
uint64_t board_cycles(const Board *board, double time_s);

/* One line to whoever drives the board. */
void tell(const char *format, ...) __attribute__((format(printf, 1, 2)));

#endif
