/*
 * The converter is ours: simavr's takes whole millivolts and floors mV * 1023 / Vref, whereas the
 * part's data sheet has Vin * 1024 / Vref with the first step at half a step (ATmega328P data sheet
 * DS40002061, "ADC Conversion Result" and "Offset Error"; from memory). So the code is computed here
 * when a conversion starts, and simavr is given millivolts that it turns into that code.
 */
#include "analogue.h"

#include <math.h>

#include "simavr/avr_adc.h"

#define STEPS 1024
#define SUPPLY_MV 5000

/* xorshift64* (Vigna 2016): repeatable, and good enough for noise. */
static double uniform(Analogue *a)
{
	a->random ^= a->random >> 12;
	a->random ^= a->random << 25;
	a->random ^= a->random >> 27;
	return ((a->random * 0x2545F4914F6CDD1DULL >> 11) + 0.5) / 9007199254740992.0;
}

static double normal(Analogue *a)
{
	const double radius = sqrt(-2 * log(uniform(a)));
	return radius * cos(2 * M_PI * uniform(a));
}

static int code_of(Analogue *a, int pin)
{
	const double time_s = (double)a->avr->cycle / a->avr->frequency;
	const double hum_mV = a->hum_mV * sin(2 * M_PI * a->hum_Hz * time_s);
	const double seen_mV = a->pin_mV[pin] + hum_mV + a->noise_mV * normal(a);
	const double code = floor(seen_mV * STEPS / a->reference_mV + 0.5);
	return code < 0 ? 0 : code > STEPS - 1 ? STEPS - 1 : (int)code;
}

/* A conversion starts: the pin is sampled now. */
static void convert(avr_irq_t *irq, uint32_t value, void *param)
{
	(void)irq;
	Analogue *a = param;
	union {
		avr_adc_mux_t mux;
		uint32_t v;
	} source = {.v = value};
	if (source.mux.kind != ADC_MUX_SINGLE || source.mux.src >= ANALOGUE_PINS) return;
	const uint32_t code = (uint32_t)code_of(a, source.mux.src);
	const uint32_t millivolts = (code * SUPPLY_MV + STEPS - 2) / (STEPS - 1);
	avr_raise_irq(avr_io_getirq(a->avr, AVR_IOCTL_ADC_GETIRQ, source.mux.src), millivolts);
}

void analogue_wire(Analogue *a, avr_t *avr)
{
	*a = (Analogue){.avr = avr, .reference_mV = SUPPLY_MV, .random = 0x9E3779B97F4A7C15ULL};
	avr->vcc = avr->avcc = avr->aref = SUPPLY_MV;
	avr_irq_t *start = avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_OUT_TRIGGER);
	avr_irq_register_notify(start, convert, a);
}
