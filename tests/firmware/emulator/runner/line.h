/* The serial line: the board's UART, the bridge to USB, and the port that a host opens. */
#ifndef LINE_H
#define LINE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "simavr/avr_uart.h"

#define BRIDGE_BYTES 4096

typedef enum LineState {
	LINE_OPEN,
	/* What the board sends vanishes on the way. */
	LINE_CUT,
} LineState;

typedef struct Line {
	avr_t *avr;
	avr_uart_t *uart;
	int port;
	bool opened;
	LineState state;
	/* How many times longer than it should the line takes for a byte of the board. */
	double slowness;
	uint8_t out[BRIDGE_BYTES];
	size_t out_length;
	uint8_t in[BRIDGE_BYTES];
	size_t in_first, in_length;
	uint64_t sent, lost, busy_cycles;
} Line;

/* Opens the port and returns its path. Ends the program when there is none to be had. */
const char *line_wire(Line *line, avr_t *avr);
/* Passes on what has gathered in both directions; true when a host has just opened the port. */
bool line_serve(Line *line);
/* Bytes that did not come from the board's program, such as a brown-out's. */
void line_inject(Line *line, const uint8_t *bytes, size_t length);
void line_restore(Line *line);

#endif
