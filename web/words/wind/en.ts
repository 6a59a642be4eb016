import type { WindWords } from '../wind-words.ts';

export const enWind: WindWords = {
  share: (percent) => `${percent} of the wind’s power`,
  offered: (power) => `The wind carried ${power} through the circle that the blades draw.`,
  betz: (percent) => `No rotor can take more than ${percent}: the air has to get away again.`,
  beyond: (percent) =>
    `More than ${percent} is impossible for any rotor. Look at the units (mA or A?), at the radius, and at where the wind is read.`,
  ideal: (percent) =>
    `At this speed even a perfect rotor takes at most ${percent}: the air behind it turns.`,
  most: (cause, percent) => `Most of this ±: ${cause}, ${percent}.`,
  cause: {
    power: 'power',
    'air density': 'how heavy the air is',
    'rotor radius': 'size of the rotor',
    'scatter of the wind': 'how much the wind readings scatter',
    anemometer: 'the wind meter',
    gusts: 'gusts',
    'place of the anemometer': 'wind at its place and at the rotor',
    'correction of the wind': 'what the wind was put right by',
  },
  gustsFrom: {
    samples: 'Gusts are in it as the wind meter read them.',
    'slow wind meter':
      'Gusts are taken as usual for a fan: the wind meter gives too few new numbers a second to see them.',
    usual: 'Gusts are taken as usual for a fan.',
  },
  gap: {
    anemometer: 'how good the wind meter is',
    'wind across the rotor': 'whether all of the rotor gets the wind that is read',
    correction: 'how well the correction of the wind is known',
  },
  why: {
    'no power': 'Without power there is nothing to compare with the wind.',
    'no wind reading': 'The wind was not read in this trial, so its power is not known.',
    'too little wind': 'The wind meter hardly turned: what it read tells nothing.',
    'rotor not described': 'Which part of the wind’s power is that? Say how large the rotor is.',
    'blade length without a number': 'The plan names the blade lengths without saying how long they are.',
  },
  scale: { all: 'all the wind carries', betz: (percent) => `${percent}: Betz’s limit` },
  turned: {
    channel: (turns) => `The rotor turned ${turns} times a minute, as the board read it.`,
    ripple: (turns) => `The rotor turned ${turns} times a minute: that is heard in the ripple of the voltage.`,
    generator: (turns) => `The rotor turned ${turns} times a minute, going by the generator’s volts.`,
  },
  tips: (times) => `Its tips ran ${times} times as fast as the wind.`,
  noRipple: {
    'below step': () =>
      'The ripple of the voltage is smaller than one step of the readings, so it tells no speed.',
    'rate too low': (rate) =>
      `The ripple of the voltage tells no speed: it is faster than half of ${rate} readings a second.`,
    'no line': (rate) =>
      `No ripple stands out of the noise of the voltage (${rate} readings a second), so it tells no speed.`,
    'ripples not said': () =>
      'The voltage ripples. Say under “Rotor and air” how many ripples there are in a turn, and the speed is known.',
    mains: () => 'The voltage ripples as the mains do, so that ripple tells no speed.',
    folded: (rate) =>
      `The ripple of the voltage may be a faster one than ${rate} readings a second can show. With the generator fitted, or wind and radius known, it could be told.`,
    several: () =>
      'The voltage ripples in several ways that do not belong to one speed, so it tells none. With the generator fitted it could be told.',
    elsewhere: () =>
      'The ripple of the voltage does not fit the generator’s volts. Look at the number of ripples in a turn, and at the generator.',
  },
  describe: 'Rotor and air',
  field: {
    radius: 'Axis to tip of a blade, mm',
    hub: 'Axis to where blades begin, mm',
    temperature: 'Air temperature, °C',
    pressure: 'Air pressure here, hPa',
    altitude: 'or height above the sea, m',
    humidity: 'Humidity, %',
    anemometer: 'Wind meter',
    rings: 'Wind across the rotor, m/s',
    atPlace: 'and at its usual place, m/s',
    blades: 'Number of blades',
    chord: 'Width of a blade, mm',
    angle: 'Blade angle, °',
    wind: 'Wind, m/s',
    jet: 'The fan’s wind is wide, mm',
    emf: 'Generator: volts at 1000 turns a minute',
    winding: 'Its winding, Ω',
    ripples: 'Ripples of the voltage in a turn',
    friction: 'What just turns the shaft, mN·m',
    loadResistance: 'Load: a resistor of, Ω',
    lampVoltage: 'or a lamp of, V',
    lampCurrent: 'and, A',
  },
  hint: {
    hub: 'Empty: 0. A trial’s share of the wind is of the whole circle.',
    lengthVaried: 'Not needed: the plan changes the blade length.',
    altitude: 'One of the two is enough.',
    humidity: 'What is left empty is taken as wide as it may be.',
    heard: (value) => `The board says ${value}, and that counts.`,
    rings: (radii) => `With the rotor taken off, hold the wind meter ${radii} from the axis.`,
    ringsFirst: 'First say how large the rotor is.',
    wind: 'Not needed where a wind meter is read.',
    emf: 'Blades off, no load, spun: 2.1 V at 1000 turns are 2.1.',
    ripples: 'A small motor with three slots: 6. Without it a fast board can’t tell the speed.',
    friction: 'With blades off: grams on a thread × mm of its radius ÷ 100.',
    load: 'Empty: volts over amperes of the trials.',
    fitted: (value) => `Fitted to readings: ${value}, and that counts.`,
    fittedLamp: 'A lamp was fitted to readings, and that counts.',
  },
  anemometer: {
    unknown: 'not known',
    vane: 'small vane, ±(3\u202f% + 0.1\u202fm/s)',
    cups: 'cups, ±(5\u202f% + 0.1\u202fm/s)',
  },
  problem: {
    needed: 'This is needed.',
    number: 'This is no number.',
    between: (low, high) => `From ${low} to ${high}.`,
    hub: 'The blades must reach further than this.',
    rings: 'Two to twelve numbers, with spaces between them.',
    together: 'Both are needed, or neither.',
    whole: 'A whole number.',
    disc: 'So many blades of this width cover more than the circle.',
    oneLoad: 'A resistor or a lamp, not both.',
    oneAir: 'The pressure or the height, not both.',
    jet: 'A jet no wider than the hub meets no blade.',
  },
  forWhy: 'For the page “Why”: all of it may stay empty, and is then taken as wide as it may be.',
  use: 'Use this',
};
