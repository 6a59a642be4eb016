/* Digital pins 0 to 7 (port D): levels such as buttons, and trains of pulses. */
#ifndef DIGITAL_H
#define DIGITAL_H

#include <stdbool.h>
#include <stdint.h>

#include "simavr/sim_avr.h"

#define DIGITAL_PINS 8

typedef struct Pulses {
	struct Digital *digital;
	int pin;
	double rate_Hz;
	/* Share of the period gone by at `since`: a change of the rate leaves the phase as it is. */
	double phase;
	avr_cycle_count_t since;
} Pulses;

typedef struct Digital {
	avr_t *avr;
	bool driven[DIGITAL_PINS];
	bool level[DIGITAL_PINS];
	Pulses pulses[DIGITAL_PINS];
} Digital;

void digital_wire(Digital *digital, avr_t *avr);
void digital_set(Digital *digital, int pin, bool level);
/* Square pulses of this many a second; 0 stops where it stands. */
void digital_pulse(Digital *digital, int pin, double rate_Hz);
/* After a reset: levels and edges go on as if nothing had been. */
void digital_restore(Digital *digital);

#endif
