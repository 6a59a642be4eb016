#include "digital.h"

#include <math.h>

#include "simavr/avr_ioport.h"
#include "simavr/sim_cycle_timers.h"

#define PORT 'D'

static void raise(Digital *d, int pin, bool level)
{
	avr_raise_irq(avr_io_getirq(d->avr, AVR_IOCTL_IOPORT_GETIRQ(PORT), pin), level);
}

/* Whenever the program writes to the port, simavr lifts pins with pull-ups, unless told otherwise. */
static void drive(Digital *d, int pin)
{
	avr_ioport_external_t external = {.name = PORT};
	for (int i = 0; i < DIGITAL_PINS; i++) {
		external.mask |= d->driven[i] << i;
		external.value |= (d->driven[i] && d->level[i]) << i;
	}
	avr_ioctl(d->avr, AVR_IOCTL_IOPORT_SET_EXTERNAL(PORT), &external);
	raise(d, pin, d->level[pin]);
}

static double phase_now(const Pulses *p)
{
	const double periods = (p->digital->avr->cycle - p->since) * p->rate_Hz / p->digital->avr->frequency;
	return fmod(p->phase + periods, 1);
}

/* Cycles from now to the next edge: pulses are low in the first half of their period. */
static avr_cycle_count_t to_next_edge(const Pulses *p)
{
	const double phase = p->digital->level[p->pin] ? 1 - p->phase : 0.5 - p->phase;
	const double cycles = phase / p->rate_Hz * p->digital->avr->frequency;
	return cycles < 1 ? 1 : (avr_cycle_count_t)(cycles + 0.5);
}

static avr_cycle_count_t edge(avr_t *avr, avr_cycle_count_t when, void *param)
{
	Pulses *p = param;
	Digital *d = p->digital;
	d->level[p->pin] = !d->level[p->pin];
	p->phase = d->level[p->pin] ? 0.5 : 0;
	p->since = when;
	drive(d, p->pin);
	(void)avr;
	return when + to_next_edge(p);
}

static void schedule(Pulses *p)
{
	avr_t *avr = p->digital->avr;
	avr_cycle_timer_cancel(avr, edge, p);
	if (p->rate_Hz > 0) avr_cycle_timer_register(avr, to_next_edge(p), edge, p);
}

void digital_set(Digital *d, int pin, bool level)
{
	d->driven[pin] = true;
	d->level[pin] = level;
	drive(d, pin);
}

void digital_pulse(Digital *d, int pin, double rate_Hz)
{
	Pulses *p = &d->pulses[pin];
	if (!d->driven[pin]) digital_set(d, pin, false);
	p->phase = phase_now(p);
	p->since = d->avr->cycle;
	p->rate_Hz = rate_Hz;
	schedule(p);
}

void digital_wire(Digital *d, avr_t *avr)
{
	*d = (Digital){.avr = avr};
	for (int pin = 0; pin < DIGITAL_PINS; pin++) {
		d->pulses[pin].digital = d;
		d->pulses[pin].pin = pin;
	}
}

void digital_restore(Digital *d)
{
	for (int pin = 0; pin < DIGITAL_PINS; pin++) {
		/* The register was cleared, but simavr believes that the pin is as it was. */
		raise(d, pin, false);
		if (!d->driven[pin]) continue;
		drive(d, pin);
		digital_pulse(d, pin, d->pulses[pin].rate_Hz);
	}
}
