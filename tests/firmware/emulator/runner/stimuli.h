/*
 * What is done to the board, one line each on standard input:
 *
 *   [at SECONDS] adc PIN MILLIVOLTS          the voltage at an analogue pin
 *   [at SECONDS] noise MILLIVOLTS            standard deviation of each conversion
 *   [at SECONDS] hum MILLIVOLTS HERTZ        amplitude on every analogue pin
 *   [at SECONDS] reference MILLIVOLTS        what the converter's reference really is
 *   [at SECONDS] pin PIN 0|1                 the level at a digital pin
 *   [at SECONDS] pulses PIN HERTZ
 *   [at SECONDS] monitor present|absent
 *   [at SECONDS] monitor shunt|bus MILLIVOLTS
 *   [at SECONDS] monitor write REGISTER VALUE
 *   [at SECONDS] monitor read REGISTER       answers "register REGISTER VALUE"
 *   [at SECONDS] monitor convert             completes a round of conversions at once
 *   [at SECONDS] reset
 *   [at SECONDS] bytes HEX                   bytes on the line that the program did not send
 *   [at SECONDS] line open|cut               cut: what the board sends vanishes
 *   [at SECONDS] line slow FACTOR            the board's transmitter is held up
 *   [at SECONDS] report                      answers "report ..."
 *   begin                                    drops what was planned; answers "begun TIME"
 *
 * Lines with `at` are done so long after the newest `begin`; the others, and those whose time is
 * over, at once. A line that can't be read is answered with "refused LINE".
 */
#ifndef STIMULI_H
#define STIMULI_H

#include <stddef.h>

#include "simavr/sim_avr.h"

#define LONGEST_STIMULUS 256

typedef struct Stimulus {
	avr_cycle_count_t at;
	char *text;
} Stimulus;

typedef struct Stimuli {
	Stimulus *queue;
	size_t first, count, room;
	avr_cycle_count_t origin;
	char partial[LONGEST_STIMULUS];
	size_t partial_length;
} Stimuli;

struct Board;

/* Takes what has come on standard input; false when it has ended. */
_Bool stimuli_read(struct Board *board);
/* After a reset: what was planned stays planned. */
void stimuli_restore(struct Board *board);

#endif
