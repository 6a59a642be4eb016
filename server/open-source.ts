import type { Instruction } from '#core/virtual-rig/led-operator.ts';
import type { ChosenSource, SourceChoice } from './source-choice.ts';
import { checkCsv } from './sources/csv.ts';
import { openMeters } from './sources/meters.ts';
import type { Ports } from './sources/ports.ts';
import { openReplay } from './sources/replay.ts';
import { checkPath, openSerial } from './sources/serial.ts';
import { openPlayed, type Demonstration } from './sources/played.ts';
import { openSimulated } from './sources/simulated.ts';
import type { RecordingClock, Source, SourceListener } from './sources/source.ts';

export interface SourceSurroundings {
  readonly clock: RecordingClock;
  readonly listener: SourceListener;
  readonly ports: Ports;
  /** How much faster than life replayed and simulated sources run. */
  readonly speed: number;
  /** What somebody at the rig is told now: the simulated one has an operator who listens. */
  readonly instruction: () => Instruction;
  /** What was taken and is not yet on disk and told; null: nothing. */
  readonly untold: () => Promise<void> | null;
  readonly demonstration?: Demonstration | undefined;
}

/**
 * Whether what was named on the command line exists, before anything is begun.
 * @throws a coded error that says what to do
 */
export async function checkSource(choice: SourceChoice, ports: Ports): Promise<void> {
  if (choice.kind === 'replay') await checkCsv(choice.file);
  if (choice.kind === 'path') await checkPath(ports, choice.path);
}

/** Opens the chosen source. */
export function openSource(
  choice: ChosenSource,
  { clock, listener, ports, speed, instruction, untold, demonstration }: SourceSurroundings,
): Source {
  switch (choice.kind) {
    case 'path':
      return openSerial({ want: { path: choice.path }, clock, listener, ports });
    case 'board':
      return openSerial({ want: { id: choice.id }, clock, listener, ports });
    case 'meters':
      return openMeters(listener);
    case 'simulated':
      return demonstration === undefined
        ? openSimulated({ seed: choice.seed, speed, clock, listener, instruction })
        : openPlayed({ seed: choice.seed, listener, instruction, untold, demonstration });
    case 'session':
      throw new Error('a stored session is played, not recorded');
    case 'replay':
      return openReplay({ file: choice.file, speed, clock, listener });
  }
}
