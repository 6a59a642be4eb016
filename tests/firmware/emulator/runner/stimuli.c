#include "stimuli.h"

#include <err.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "board.h"
#include "simavr/sim_cycle_timers.h"

static bool set_line(Board *board, const char *text)
{
	Line *line = &board->line;
	if (strcmp(text, "line open") == 0) {
		line->state = LINE_OPEN;
		line->slowness = 1;
	} else if (strcmp(text, "line cut") == 0) {
		line->state = LINE_CUT;
	} else {
		double slowness;
		if (sscanf(text, "line slow %lf", &slowness) != 1 || slowness < 1) return false;
		line->slowness = slowness;
	}
	return true;
}

static bool set_monitor(Board *board, const char *text)
{
	MonitorBus *bus = &board->monitor;
	Monitor *monitor = &bus->monitor;
	int number;
	unsigned value;
	if (strcmp(text, "monitor present") == 0) monitor_connect(bus, true);
	else if (strcmp(text, "monitor absent") == 0) monitor_connect(bus, false);
	else if (strcmp(text, "monitor convert") == 0) monitor_convert(monitor);
	else if (sscanf(text, "monitor shunt %lf", &monitor->shunt_mV) == 1) return true;
	else if (sscanf(text, "monitor bus %lf", &monitor->bus_mV) == 1) return true;
	else if (sscanf(text, "monitor write %d %u", &number, &value) == 2) {
		monitor_write(monitor, number, (uint16_t)value);
	} else if (sscanf(text, "monitor read %d", &number) == 1) {
		tell("register %d %u", number, monitor_read(monitor, number));
	} else return false;
	return true;
}

static bool inject(Board *board, const char *hex)
{
	uint8_t bytes[LONGEST_STIMULUS / 2];
	const size_t length = strlen(hex) / 2;
	if (strlen(hex) % 2 != 0 || strspn(hex, "0123456789abcdef") != strlen(hex)) return false;
	for (size_t i = 0; i < length; i++) sscanf(hex + 2 * i, "%2hhx", &bytes[i]);
	line_inject(&board->line, bytes, length);
	return true;
}

static void report(const Board *board)
{
	const Line *line = &board->line;
	const double frequency = board->avr->frequency;
	tell("report time_s=%.6f slept_s=%.6f line_busy_s=%.6f latest_s=%.6f sent=%lu lost=%lu",
	     board_time_s(board), board->slept_cycles / frequency, line->busy_cycles / frequency,
	     board->latest_s, line->sent, line->lost);
}

static bool is_pin(int pin, int pins)
{
	return pin >= 0 && pin < pins;
}

static bool perform(Board *board, const char *text)
{
	Analogue *analogue = &board->analogue;
	int pin, level;
	double value;
	if (strncmp(text, "line ", 5) == 0) return set_line(board, text);
	if (strncmp(text, "monitor ", 8) == 0) return set_monitor(board, text);
	if (strncmp(text, "bytes ", 6) == 0) return inject(board, text + 6);
	if (sscanf(text, "noise %lf", &analogue->noise_mV) == 1) return true;
	if (sscanf(text, "reference %lf", &analogue->reference_mV) == 1) return true;
	if (sscanf(text, "hum %lf %lf", &analogue->hum_mV, &analogue->hum_Hz) == 2) return true;
	if (sscanf(text, "adc %d %lf", &pin, &value) == 2 && is_pin(pin, ANALOGUE_PINS)) {
		analogue->pin_mV[pin] = value;
	} else if (sscanf(text, "pin %d %d", &pin, &level) == 2 && is_pin(pin, DIGITAL_PINS)) {
		digital_set(&board->digital, pin, level != 0);
	} else if (sscanf(text, "pulses %d %lf", &pin, &value) == 2 && is_pin(pin, DIGITAL_PINS)) {
		digital_pulse(&board->digital, pin, value);
	} else if (strcmp(text, "reset") == 0) board->reset_due = true;
	else if (strcmp(text, "report") == 0) report(board);
	else return false;
	return true;
}

static void perform_or_refuse(Board *board, const char *text)
{
	if (!perform(board, text)) tell("refused %s", text);
}

static avr_cycle_count_t due(avr_t *avr, avr_cycle_count_t when, void *param)
{
	Board *board = param;
	Stimuli *s = &board->stimuli;
	(void)avr;
	while (s->count > 0 && s->queue[s->first].at <= when) {
		char *text = s->queue[s->first].text;
		s->first += 1;
		s->count -= 1;
		perform_or_refuse(board, text);
		free(text);
	}
	return s->count > 0 ? s->queue[s->first].at : 0;
}

void stimuli_restore(Board *board)
{
	const Stimuli *s = &board->stimuli;
	avr_cycle_timer_cancel(board->avr, due, board);
	if (s->count == 0) return;
	const avr_cycle_count_t now = board->avr->cycle;
	const avr_cycle_count_t at = s->queue[s->first].at;
	avr_cycle_timer_register(board->avr, at > now ? at - now : 1, due, board);
}

static void make_room(Stimuli *s)
{
	memmove(s->queue, s->queue + s->first, s->count * sizeof *s->queue);
	s->first = 0;
	if (s->count < s->room) return;
	s->room = s->room == 0 ? 1024 : 2 * s->room;
	s->queue = realloc(s->queue, s->room * sizeof *s->queue);
	if (s->queue == NULL) err(1, "stimuli");
}

/* In order of time, and for the same time in order of coming. */
static void plan(Board *board, avr_cycle_count_t at, const char *text)
{
	Stimuli *s = &board->stimuli;
	if (s->first + s->count == s->room) make_room(s);
	Stimulus *place = s->queue + s->first + s->count;
	for (; place > s->queue + s->first && place[-1].at > at; place--) *place = place[-1];
	*place = (Stimulus){.at = at, .text = strdup(text)};
	s->count += 1;
	if (place == s->queue + s->first) stimuli_restore(board);
}

static void begin(Board *board)
{
	Stimuli *s = &board->stimuli;
	while (s->count > 0) free(s->queue[s->first + --s->count].text);
	s->origin = board->avr->cycle;
	tell("begun %.6f", board_time_s(board));
}

static void take_line(Board *board, const char *text)
{
	double at_s;
	int length = 0;
	if (strcmp(text, "begin") == 0) begin(board);
	else if (sscanf(text, "at %lf %n", &at_s, &length) == 1) {
		const avr_cycle_count_t at = board->stimuli.origin + board_cycles(board, at_s);
		if (at > board->avr->cycle) plan(board, at, text + length);
		else perform_or_refuse(board, text + length);
	} else perform_or_refuse(board, text);
}

bool stimuli_read(Board *board)
{
	Stimuli *s = &board->stimuli;
	char bytes[65536];
	const ssize_t length = read(STDIN_FILENO, bytes, sizeof bytes);
	for (ssize_t i = 0; i < length; i++) {
		if (bytes[i] == '\n') {
			s->partial[s->partial_length] = '\0';
			take_line(board, s->partial);
			s->partial_length = 0;
		} else if (s->partial_length + 1 < LONGEST_STIMULUS) {
			s->partial[s->partial_length++] = bytes[i];
		}
	}
	return length > 0;
}
