/* Analogue pins: their voltages, the converter's noise, its reference, mains hum. */
#ifndef ANALOGUE_H
#define ANALOGUE_H

#include <stdint.h>

#include "simavr/sim_avr.h"

#define ANALOGUE_PINS 8

typedef struct Analogue {
	avr_t *avr;
	double pin_mV[ANALOGUE_PINS];
	/* What the reference really is; the firmware believes in 5000. */
	double reference_mV;
	/* Standard deviation of each conversion. */
	double noise_mV;
	double hum_mV;
	double hum_Hz;
	uint64_t random;
} Analogue;

void analogue_wire(Analogue *analogue, avr_t *avr);

#endif
