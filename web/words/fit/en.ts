import type { FitWords } from '../fit-words.ts';

export const enFit: FitWords = {
  open: 'Fit to the rig',
  heading: { generator: 'The generator', lamp: 'The lamp' },
  how: {
    generator:
      'Blades off before a shaft is spun by hand or by another motor; keep hair and sleeves away. Read speed, volts and milliamperes with different loads, or spin it without a load.',
    lamp: 'Read volts and milliamperes at the lamp, from barely glowing to bright. It gets hot: let it cool before you touch it.',
  },
  speed: 'The rotor’s speed',
  speeds: {
    read: 'was read each time',
    held: 'was not read, but held the same',
    free: 'was not read, and fell with the load',
  },
  column: { speed: 'r/min', volts: 'V', amps: 'mA' },
  cell: (row, column) => `Reading ${row}, ${column}`,
  take: 'Take them from the trials',
  taken: (trials, passedOver) =>
    passedOver === 0
      ? `Taken from the trials: ${trials}.`
      : `Taken from the trials: ${trials}. Passed over, for another setting or another wind: ${passedOver}.`,
  none: {
    'no trials': 'No trial has read both volts and amperes while it turned.',
    'load varied': 'The plan sets different loads: together they are not one lamp.',
    'one load': 'The load was the same in all trials. At least two loads in the same wind are needed.',
  },
  emf: (volts) => `${volts} at 1000 turns a minute.`,
  winding: (ohms) => `The winding has ${ohms}.`,
  windingAtMost: (ohms) =>
    `The winding has at most ${ohms}: the speed fell with the load, and that is in it too.`,
  unloaded: (volts) => `Without a load it would give ${volts} here.`,
  exponent: (power) => `Its current goes with the voltage to the power of ${power}; an ordinary lamp has about 0.55.`,
  lampAt: (volts, amperes) => `At ${volts} it takes ${amperes}.`,
  resistor: 'Its current goes as the voltage does: it is a plain resistor.',
  leftOut: (readings) => `Left out, because the filament was too cold: ${readings}.`,
  from: (readings) => `Readings: ${readings}.`,
  scatter: (most) => `They lie at most ${most} off the line.`,
  gap: {
    'two currents': 'Missing: two readings with different loads.',
    'two voltages': 'Missing: two readings at different voltages.',
    'a speed': 'Missing: a reading while it turns.',
    'same speed': 'These do not fit one generator: more current and yet more volts. Look at the speeds, and at the numbers.',
    'speed for the constant': 'The volts at 1000 turns can’t be told without the speed.',
    'speed for the winding': 'The winding’s ohms can’t be told without the speed. Nothing here can be used.',
    'a load': 'The winding’s ohms can’t be told without a load.',
    'one more': 'Missing: one reading more, to see how sure this is.',
    'wider apart': 'This is not sure yet. Take readings that lie further apart, or more of them.',
    'no filament': 'This is not a lamp with a filament. Is it a light-emitting diode, or is a number wrong?',
  },
  needed: 'This is needed.',
  between: (low, high) => `From ${low} to ${high}.`,
  use: 'Use this',
  leave: 'No longer use it',
  inUse: 'In use: the page “Why” reckons with it.',
  otherInUse: 'Other readings are in use.',
  clear: 'Empty the table',
  axis: { behind: 'volts before the winding', speed: 'r/min', volts: 'volts', amps: 'milliamperes' },
  picture: 'Dots: what was read. Line: what was fitted.',
};
