// What suites need beyond Node and npm packages. Plain JavaScript, because `npm test` reads it before
// anything is installed.
import { accessSync, constants } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';

/** `packages` as `apt-get satisfy` takes them: "this | else that". */
export const SYSTEM_NEEDS = {
  chromium: {
    suites: 'browser',
    // The one without windows needs a third less of the processor.
    lookFor: [['chromium-headless-shell', 'chromium', 'chromium-browser']],
    packages: ['chromium-headless-shell | chromium', 'fonts-dejavu-core', 'fonts-dejavu-extra'],
  },
  socat: { suites: 'pty', lookFor: [['socat']], packages: ['socat'] },
  // A compiler for the 8-bit boards with the core library of their sketches, a compiler for this
  // computer, and the emulator of the microcontroller. About 22 MB to fetch and 130 MB on disk,
  // beside make, gcc and g++.
  firmware: {
    suites: 'firmware',
    lookFor: [
      ['make'],
      ['gcc'],
      ['g++'],
      ['avr-gcc'],
      ['/usr/lib/avr/include/avr/io.h'],
      ['/usr/share/arduino/hardware/arduino/avr/cores/arduino/Arduino.h'],
      ['/usr/include/simavr/sim_avr.h'],
      ['/usr/include/libelf.h'],
    ],
    packages: [
      'make', 'gcc', 'g++', 'libc6-dev', 'gcc-avr', 'binutils-avr', 'avr-libc', 'arduino-core-avr', 'libsimavr-dev', 'libelf-dev',
    ],
  },
};

/** What is missing here of a need: the first name of each thing looked for. */
export function missingOf({ lookFor }) {
  return lookFor.filter((names) => findFirst(names) === null).map(([name]) => name);
}

/** The command that installs it on Debian. */
export function howToInstall({ packages }) {
  return `apt-get install ${packages.map((one) => one.split(' | ')[0]).join(' ')}`;
}

/** The path of the first of these commands (or files, given by their path) that is there, or null. */
export function findFirst(names) {
  return names.map(find).find((found) => found !== null) ?? null;
}

function find(name) {
  if (isAbsolute(name)) return isThere(name, constants.R_OK) ? name : null;
  const folders = (process.env.PATH ?? '').split(delimiter);
  return folders.map((folder) => join(folder, name)).find((file) => isThere(file, constants.X_OK)) ?? null;
}

function isThere(file, mode) {
  try {
    accessSync(file, mode);
    return true;
  } catch {
    return false;
  }
}
