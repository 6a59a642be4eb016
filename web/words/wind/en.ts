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
  },
  gap: {
    anemometer: 'how good the wind meter is',
    'wind across the rotor': 'whether all of the rotor gets the wind that is read',
  },
  why: {
    'no power': 'Without power there is nothing to compare with the wind.',
    'no wind reading': 'The wind was not read in this trial, so its power is not known.',
    'too little wind': 'The wind meter hardly turned: what it read tells nothing.',
    'rotor not described': 'Which part of the wind’s power is that? Say how large the rotor is.',
    'blade length without a number': 'The plan names the blade lengths without saying how long they are.',
  },
  scale: { all: 'all the wind carries', betz: (percent) => `${percent}: Betz’s limit` },
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
  },
  hint: {
    hub: 'Empty: 0. A trial’s share of the wind is of the whole circle.',
    lengthVaried: 'Not needed: the plan changes the blade length.',
    altitude: 'One of the two is enough.',
    humidity: 'What is left empty is taken as wide as it may be.',
    heard: (value) => `The board says ${value}, and that counts.`,
    rings: (radii) => `With the rotor taken off, hold the wind meter ${radii} from the axis.`,
    ringsFirst: 'First say how large the rotor is.',
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
  },
  use: 'Use this',
};
