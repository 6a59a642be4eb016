/*
 * An emulated board in real time: an ATmega328P at 16 MHz runs a compiled sketch as machine code,
 * its serial line is a pseudo-terminal.
 *
 *   board FIRMWARE.elf
 *
 * Prints "port PATH" first; then "opened TIME" whenever a host opens the port (which resets the
 * board, as DTR does on the usual ones) and "reset TIME" at every reset, TIME being board time.
 * Standard input takes what is to happen to it (stimuli.h); the program ends with it.
 */
#define _GNU_SOURCE
#include "board.h"

#include <err.h>
#include <poll.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

#include "simavr/sim_elf.h"

#define PROCESSOR "atmega328p"
#define FREQUENCY_HZ 16000000
/* The board runs so long at once, then waits for real time and looks after its surroundings. */
#define SLICE_S 0.001

void tell(const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	vprintf(format, arguments);
	va_end(arguments);
	putchar('\n');
	fflush(stdout);
}

double board_time_s(const Board *board)
{
	return (double)board->avr->cycle / FREQUENCY_HZ;
}

uint64_t board_cycles(const Board *board, double time_s)
{
	(void)board;
	return time_s > 0 ? (uint64_t)(time_s * FREQUENCY_HZ + 0.5) : 0;
}

/* The processor starts anew, what is wired to it stays as it is. */
static void reset(Board *board)
{
	board->reset_due = false;
	avr_reset(board->avr);
	line_restore(&board->line);
	digital_restore(&board->digital);
	monitor_restore(&board->monitor);
	stimuli_restore(board);
	tell("reset %.6f", board_time_s(board));
}

static Board *the_board;

/* Called in place of a real sleep: pacing is ours. */
static void note_sleep(avr_t *avr, avr_cycle_count_t cycles)
{
	(void)avr;
	the_board->slept_cycles += cycles;
}

static void log_to_stderr(avr_t *avr, const int level, const char *format, va_list arguments)
{
	(void)avr;
	if (level <= LOG_ERROR) vfprintf(stderr, format, arguments);
}

static double now_s(void)
{
	struct timespec time;
	clock_gettime(CLOCK_MONOTONIC, &time);
	return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static void run_slice(Board *board)
{
	avr_t *avr = board->avr;
	const avr_cycle_count_t end = avr->cycle + (avr_cycle_count_t)(SLICE_S * FREQUENCY_HZ);
	while (avr->cycle < end) {
		const int state = avr_run(avr);
		if (state == cpu_Done || state == cpu_Crashed) errx(1, "the firmware crashed at %x", avr->pc);
	}
}

/* Waits until real time has come to `until_s`, and takes stimuli meanwhile; false when they end. */
static bool wait_until(Board *board, double until_s)
{
	struct pollfd input = {.fd = STDIN_FILENO, .events = POLLIN};
	for (;;) {
		const double left_s = until_s - now_s();
		const struct timespec time = {.tv_nsec = left_s > 0 ? (long)(1e9 * left_s) : 0};
		if (-left_s > board->latest_s) board->latest_s = -left_s;
		if (ppoll(&input, 1, &time, NULL) <= 0) return true;
		if (!stimuli_read(board)) return false;
	}
}

static void run_in_real_time(Board *board)
{
	const double start_s = now_s() - board_time_s(board);
	do {
		run_slice(board);
		if (line_serve(&board->line)) {
			tell("opened %.6f", board_time_s(board));
			board->reset_due = true;
		}
		if (board->reset_due) reset(board);
	} while (wait_until(board, start_s + board_time_s(board)));
}

static avr_t *power_up(const char *firmware_path)
{
	avr_global_logger_set(log_to_stderr);
	elf_firmware_t firmware = {0};
	if (elf_read_firmware(firmware_path, &firmware) < 0) errx(1, "%s is no firmware", firmware_path);
	avr_t *avr = avr_make_mcu_by_name(PROCESSOR);
	if (avr == NULL) errx(1, "simavr does not know the " PROCESSOR);
	avr_init(avr);
	avr->frequency = FREQUENCY_HZ;
	avr->sleep = note_sleep;
	avr_load_firmware(avr, &firmware);
	avr->frequency = FREQUENCY_HZ;
	return avr;
}

int main(int argc, char **argv)
{
	static Board board;
	if (argc != 2) errx(2, "usage: board FIRMWARE.elf");
	the_board = &board;
	board.avr = power_up(argv[1]);
	analogue_wire(&board.analogue, board.avr);
	digital_wire(&board.digital, board.avr);
	monitor_wire(&board.monitor, board.avr);
	tell("port %s", line_wire(&board.line, board.avr));
	run_in_real_time(&board);
	return 0;
}
