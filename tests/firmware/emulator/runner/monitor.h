/*
 * A current and power monitor of the 12-bit, 26 V kind on the board's I2C bus. What its registers
 * hold is as in the data sheet of that kind of part (Texas Instruments SBOS448).
 */
#ifndef MONITOR_H
#define MONITOR_H

#include <stdbool.h>
#include <stdint.h>

#include "simavr/sim_avr.h"

enum {
	MONITOR_CONFIGURATION,
	MONITOR_SHUNT,
	MONITOR_BUS,
	MONITOR_POWER,
	MONITOR_CURRENT,
	MONITOR_CALIBRATION,
	MONITOR_REGISTERS,
};

typedef struct Monitor {
	/* At the pins, what it measures. */
	double shunt_mV;
	double bus_mV;
	uint16_t registers[MONITOR_REGISTERS];
} Monitor;

/* As after power-on. */
void monitor_reset(Monitor *monitor);
uint16_t monitor_read(Monitor *monitor, int number);
void monitor_write(Monitor *monitor, int number, uint16_t value);
/* Microseconds that the configured conversions take together; 0 in power-down. */
unsigned monitor_conversion_us(const Monitor *monitor);
/* A round of conversions is complete. */
void monitor_convert(Monitor *monitor);

/* The monitor as a slave on the bus. */
typedef struct MonitorBus {
	Monitor monitor;
	avr_t *avr;
	bool present;
	bool addressed;
	uint8_t pointer;
	/* Bytes since the start condition. */
	int position;
	uint16_t word;
} MonitorBus;

void monitor_wire(MonitorBus *bus, avr_t *avr);
/* Connected it starts as after power-on. */
void monitor_connect(MonitorBus *bus, bool present);
void monitor_restore(MonitorBus *bus);

#endif
