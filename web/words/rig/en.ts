import type { RigWords } from '../rig-words.ts';

export const enRig: RigWords = {
  heading: 'Look at the rig',
  channel: { voltage_V: 'Voltage', current_A: 'Current', windSpeed_mps: 'Wind' },
  finding: {
    'zero-off': {
      seen: (channel, value) => `${channel} still reads ${value} with the fan off.`,
      why: 'That is added to every reading.',
      todo: 'Zero it: under “The board”, or with “Read wrongly? Put it right”.',
    },
    'signs-differ': {
      seen: (channel) => `${channel} is negative, the other is not.`,
      why: 'One pair of leads is swapped, so the power comes out below zero.',
      todo: 'Stop the fan, swap the two leads of that channel.',
    },
    'no-current': {
      seen: (_, value) => `${value}, but no current.`,
      why: 'The lamp takes nothing: its circuit is open, or the voltage leads stand in its line.',
      todo: 'Stop the fan. Lamp tight and whole? Then the leads: current in the lamp’s line, voltage across it.',
    },
    'no-voltage': {
      seen: (_, value) => `${value}, but no voltage.`,
      why: 'Something bridges the lamp, or the current leads stand across it.',
      todo: 'Stop the fan. Look for a bare wire; current in the lamp’s line, voltage across it.',
    },
    stuck: {
      seen: (channel, value) => `${channel} reads ${value} all the time, while the other changes.`,
      why: 'A reading that hangs is no reading.',
      todo: 'Look at its leads and its plug; restart the board if it stays.',
    },
    clipped: {
      seen: (channel, value) => `${channel} stops at ${value}.`,
      why: 'The board can show no more: everything above looks the same.',
      todo: 'Choose a larger divider or a smaller shunt; the wiring page works it out.',
    },
    'wind-unread': {
      seen: () => 'The rotor turns, and the anemometer reads no wind.',
      why: 'Without wind nobody can tell a better blade from a stronger fan.',
      todo: 'Does it turn freely, is it plugged in, does it stand in the wind?',
    },
    'wind-past-rotor': {
      seen: (_, value) => `Nothing has turned yet, though the wind is ${value}.`,
      why: 'The jet may blow past the rotor, or the shaft may be stuck.',
      todo: 'Fan off: turn the rotor by hand. Does it run freely? Then aim the fan at the hub.',
    },
    'wind-changed': {
      seen: (_, value) => `The wind has changed by ${value}, and stays so.`,
      why: 'A tenth less wind is a quarter less power: trials before and after can’t be compared.',
      todo: 'Fan off. Does it stand at its mark, at the same setting, with nothing before it? Put it back.',
    },
    'needs-flick': {
      seen: (_, value) => `It stood ${value} in the wind before it started.`,
      why: 'A push by hand makes a run that others can’t repeat.',
      todo: 'Keep hands away. Let it start by itself, or log that it did not turn.',
    },
    'too-much': {
      seen: (channel, value) => `${channel} reads ${value}.`,
      why: 'No small rotor gives that: the unit is wrong, for instance mA as A.',
      whyOfWind: 'No fan blows like that: the unit is wrong, for instance km/h as m/s.',
      todo: 'Look at the names and units of the board’s numbers.',
    },
    'beyond-wind': {
      seen: (_, value) => `The load gets ${value} of the wind’s power.`,
      why: 'No rotor can take more than 59 %: a unit, the wind or the rotor’s size is wrong.',
      todo: 'Check mA and A, the anemometer’s place, and the radius under “Rotor and air”.',
    },
    'mains-hum': {
      seen: (_, value) => `A ripple of ${value} from the mains is in the voltage.`,
      why: 'It makes readings jitter that are steady.',
      todo: 'Move leads away from the fan’s cable, twist them in pairs, keep them short.',
    },
  },
  meant: 'It is meant so',
};
