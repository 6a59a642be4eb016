#include "monitor.h"

#include <math.h>

#define POWER_ON_CONFIGURATION 0x399F
#define RESET_BIT 0x8000
#define WIDE_BUS_RANGE 0x2000
#define MODE 0x0007
#define MODE_SHUNT 0x0001
#define MODE_BUS 0x0002
#define READY 0x0002
#define OVERFLOWN 0x0001
#define BUS_STEP_MV 4
#define SHUNT_STEP_MV 0.01

void monitor_reset(Monitor *m)
{
	for (int i = 0; i < MONITOR_REGISTERS; i++) m->registers[i] = 0;
	m->registers[MONITOR_CONFIGURATION] = POWER_ON_CONFIGURATION;
}

uint16_t monitor_read(Monitor *m, int number)
{
	if (number >= MONITOR_REGISTERS) return 0;
	if (number == MONITOR_POWER) m->registers[MONITOR_BUS] &= ~READY;
	return m->registers[number];
}

/* From converter steps to current and power: the only arithmetic there is in the part. */
static void calculate(Monitor *m)
{
	const int64_t shunt = (int16_t)m->registers[MONITOR_SHUNT];
	const int64_t bus = m->registers[MONITOR_BUS] >> 3;
	const int64_t current = shunt * m->registers[MONITOR_CALIBRATION] / 4096;
	const int64_t power = (current < 0 ? -current : current) * bus / 5000;
	const bool fits = current >= INT16_MIN && current <= INT16_MAX && power <= UINT16_MAX;
	m->registers[MONITOR_CURRENT] = (uint16_t)current;
	m->registers[MONITOR_POWER] = (uint16_t)power;
	if (fits) m->registers[MONITOR_BUS] &= ~OVERFLOWN;
	else m->registers[MONITOR_BUS] |= OVERFLOWN;
}

void monitor_write(Monitor *m, int number, uint16_t value)
{
	if (number == MONITOR_CONFIGURATION) {
		if (value & RESET_BIT) {
			monitor_reset(m);
			return;
		}
		m->registers[number] = value;
		m->registers[MONITOR_BUS] &= ~READY;
	}
	/* The lowest bit of the calibration can't be set. */
	if (number == MONITOR_CALIBRATION) m->registers[number] = value & 0xFFFE;
}

/* The four bits that set the resolution (9 to 12 bits) or the averaging (2 to 128 conversions). */
static unsigned conversion_us(unsigned setting)
{
	static const unsigned by_resolution[] = {84, 148, 276, 532};
	static const unsigned by_averaging[] = {532, 1060, 2130, 4260, 8510, 17020, 34050, 68100};
	return setting & 8 ? by_averaging[setting & 7] : by_resolution[setting & 3];
}

unsigned monitor_conversion_us(const Monitor *m)
{
	const uint16_t configuration = m->registers[MONITOR_CONFIGURATION];
	const unsigned shunt_us = conversion_us(configuration >> 3 & 15);
	const unsigned bus_us = conversion_us(configuration >> 7 & 15);
	return (configuration & MODE_SHUNT ? shunt_us : 0) + (configuration & MODE_BUS ? bus_us : 0);
}

static double within(double value, double least, double most)
{
	return value < least ? least : value > most ? most : value;
}

void monitor_convert(Monitor *m)
{
	const uint16_t configuration = m->registers[MONITOR_CONFIGURATION];
	if (configuration & MODE_SHUNT) {
		const double most = 4000 << (configuration >> 11 & 3);
		const double steps = within(round(m->shunt_mV / SHUNT_STEP_MV), -most, most);
		m->registers[MONITOR_SHUNT] = (uint16_t)(int16_t)steps;
	}
	if (configuration & MODE_BUS) {
		const double most = configuration & WIDE_BUS_RANGE ? 8000 : 4000;
		const double steps = within(round(m->bus_mV / BUS_STEP_MV), 0, most);
		m->registers[MONITOR_BUS] = (uint16_t)((unsigned)steps << 3);
	}
	calculate(m);
	m->registers[MONITOR_BUS] |= READY;
}
