/* Between simavr's TWI master and the monitor's registers: addressing, pointer, bytes. */
#include "monitor.h"
#include "simavr/avr_twi.h"
#include "simavr/sim_cycle_timers.h"
#include "simavr/sim_time.h"

#define ADDRESS 0x40

static void answer(MonitorBus *bus, uint8_t kind, uint8_t data)
{
	avr_irq_t *input = avr_io_getirq(bus->avr, AVR_IOCTL_TWI_GETIRQ(0), TWI_IRQ_INPUT);
	avr_raise_irq(input, avr_twi_irq_msg(kind, ADDRESS, data));
}

static avr_cycle_count_t round_complete(avr_t *avr, avr_cycle_count_t when, void *param)
{
	MonitorBus *bus = param;
	monitor_convert(&bus->monitor);
	const unsigned next_us = monitor_conversion_us(&bus->monitor);
	return next_us > 0 ? when + avr_usec_to_cycles(avr, next_us) : 0;
}

/* A new configuration starts the conversions anew. */
static void start_conversions(MonitorBus *bus)
{
	avr_cycle_timer_cancel(bus->avr, round_complete, bus);
	const unsigned first_us = monitor_conversion_us(&bus->monitor);
	if (!bus->present || first_us == 0) return;
	avr_cycle_timer_register_usec(bus->avr, first_us, round_complete, bus);
}

/* The first byte is the pointer; every two after it, high byte first, are written. */
static void take(MonitorBus *bus, uint8_t byte)
{
	if (bus->position == 0) bus->pointer = byte;
	else bus->word = (uint16_t)(bus->word << 8 | byte);
	if (bus->position > 0 && bus->position % 2 == 0) {
		monitor_write(&bus->monitor, bus->pointer, bus->word);
		if (bus->pointer == MONITOR_CONFIGURATION) start_conversions(bus);
	}
	bus->position += 1;
}

static uint8_t give(MonitorBus *bus)
{
	const bool high = bus->position % 2 == 0;
	if (high) bus->word = monitor_read(&bus->monitor, bus->pointer);
	bus->position += 1;
	return (uint8_t)(high ? bus->word >> 8 : bus->word);
}

static void from_master(avr_irq_t *irq, uint32_t value, void *param)
{
	(void)irq;
	MonitorBus *bus = param;
	const avr_twi_msg_irq_t message = {.u.v = value};
	const uint8_t kind = message.u.twi.msg;
	if (kind & TWI_COND_STOP) bus->addressed = false;
	if (kind & TWI_COND_START) {
		bus->addressed = bus->present && message.u.twi.addr >> 1 == ADDRESS;
		bus->position = 0;
		if (bus->addressed) answer(bus, TWI_COND_ACK, 1);
	}
	if (!bus->addressed) return;
	if (kind & TWI_COND_WRITE) {
		take(bus, message.u.twi.data);
		answer(bus, TWI_COND_ACK, 1);
	}
	if (kind & TWI_COND_READ) answer(bus, TWI_COND_READ, give(bus));
}

void monitor_wire(MonitorBus *bus, avr_t *avr)
{
	*bus = (MonitorBus){.avr = avr};
	avr_irq_t *output = avr_io_getirq(avr, AVR_IOCTL_TWI_GETIRQ(0), TWI_IRQ_OUTPUT);
	avr_irq_register_notify(output, from_master, bus);
	monitor_reset(&bus->monitor);
}

void monitor_connect(MonitorBus *bus, bool present)
{
	if (present && !bus->present) monitor_reset(&bus->monitor);
	bus->present = present;
	bus->addressed = false;
	start_conversions(bus);
}

void monitor_restore(MonitorBus *bus)
{
	bus->addressed = false;
	start_conversions(bus);
}
