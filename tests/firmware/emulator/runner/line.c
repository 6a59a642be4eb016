#define _GNU_SOURCE
#include "line.h"

#include <err.h>
#include <fcntl.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include "simavr/sim_cycle_timers.h"

/* ATmega328P: registers of USART0 as data addresses. */
#define UCSR0A 0xC0
#define UBRR0L 0xC4
#define UBRR0H 0xC5
#define U2X0 0x02
#define BITS_PER_BYTE 10

static avr_cycle_count_t cycles_per_byte(const avr_t *avr)
{
	const unsigned divider = avr->data[UBRR0L] | (avr->data[UBRR0H] << 8);
	const unsigned cycles_per_bit = (avr->data[UCSR0A] & U2X0 ? 8 : 16) * (divider + 1);
	return BITS_PER_BYTE * (avr_cycle_count_t)cycles_per_bit;
}

/* simavr counts a parity bit that is not there. */
static void keep_speed(Line *line)
{
	line->uart->cycles_per_byte = (avr_cycle_count_t)(cycles_per_byte(line->avr) * line->slowness);
}

void line_inject(Line *line, const uint8_t *bytes, size_t length)
{
	for (size_t i = 0; i < length; i++) {
		if (line->state == LINE_CUT || !line->opened || line->out_length == BRIDGE_BYTES) {
			line->lost += line->opened;
		} else {
			line->out[line->out_length++] = bytes[i];
		}
	}
}

static void sent_by_board(avr_irq_t *irq, uint32_t value, void *param)
{
	(void)irq;
	Line *line = param;
	const uint8_t byte = (uint8_t)value;
	keep_speed(line);
	line->sent += 1;
	line->busy_cycles += cycles_per_byte(line->avr);
	line_inject(line, &byte, 1);
}

/* One byte for the board each byte time, whether it keeps up or not. */
static avr_cycle_count_t hand_over(avr_t *avr, avr_cycle_count_t when, void *param)
{
	Line *line = param;
	avr_raise_irq(line->uart->io.irq + UART_IRQ_INPUT, line->in[line->in_first]);
	line->in_first += 1;
	line->in_length -= 1;
	return line->in_length > 0 ? when + cycles_per_byte(avr) : 0;
}

static void write_out(Line *line)
{
	if (line->out_length == 0) return;
	const ssize_t written = write(line->port, line->out, line->out_length);
	if (written <= 0) return;
	line->out_length -= (size_t)written;
	memmove(line->out, line->out + written, line->out_length);
}

static void read_in(Line *line)
{
	if (line->in_length > 0) return;
	const ssize_t length = read(line->port, line->in, BRIDGE_BYTES);
	if (length <= 0) return;
	line->in_first = 0;
	line->in_length = (size_t)length;
	avr_cycle_timer_register(line->avr, cycles_per_byte(line->avr), hand_over, line);
}

bool line_serve(Line *line)
{
	struct pollfd port = {.fd = line->port, .events = POLLIN};
	poll(&port, 1, 0);
	const bool opened = !(port.revents & POLLHUP);
	const bool just_opened = opened && !line->opened;
	line->opened = opened;
	if (!opened) line->out_length = 0;
	else write_out(line);
	if (port.revents & POLLIN) read_in(line);
	return just_opened;
}

static avr_uart_t *find_uart(avr_t *avr)
{
	for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
		if (strcmp(io->kind, "uart") == 0) return (avr_uart_t *)io;
	}
	errx(1, "this microcontroller has no UART");
}

/* A port whose other side was never open looks as if it were: open and close it once, raw. */
static const char *open_port(int *port)
{
	*port = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
	if (*port < 0 || grantpt(*port) < 0 || unlockpt(*port) < 0) err(1, "no pseudo-terminal");
	const char *path = ptsname(*port);
	const int side = open(path, O_RDWR | O_NOCTTY);
	struct termios settings;
	if (side < 0 || tcgetattr(side, &settings) < 0) err(1, "%s", path);
	cfmakeraw(&settings);
	if (tcsetattr(side, TCSANOW, &settings) < 0) err(1, "%s", path);
	close(side);
	return path;
}

const char *line_wire(Line *line, avr_t *avr)
{
	*line = (Line){.avr = avr, .uart = find_uart(avr), .slowness = 1};
	uint32_t flags = 0;
	avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
	avr_irq_t *irq = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT);
	avr_irq_register_notify(irq, sent_by_board, line);
	return open_port(&line->port);
}

/* After a reset: what was on its way to the board is gone. */
void line_restore(Line *line)
{
	line->in_length = 0;
}
