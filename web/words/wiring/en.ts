import type { WiringWords } from '../wiring-words.ts';

export const enWiring: WiringWords = {
  page: 'Wiring',
  heading: 'What will it read, and how well?',
  toBench: 'Bench',
  toWorkOut: 'What to work out',
  kind: {
    divider: 'Voltage, two resistors',
    shunt: 'Current, shunt and amplifier',
    monitor: 'Both, I²C monitor',
    meter: 'Check against a multimeter',
  },
  result: 'What it comes to',
  nothingYet: 'Nothing to say yet. Look at what is marked.',
  cautions:
    'The drawings show the principle. Build it as docs/wiring.md draws it, with the parts that protect board and people. Extra-low voltage only, up to 30\u202fV: never mains, not even to measure it. Follow your local rules, and ask a qualified person where you are not sure.',
  field: {
    reference: 'Reference of the converter',
    referenceTolerance: 'Tolerance of the reference',
    bits: 'Bits of the converter',
    partsPerStep: 'Counts for one step',
    upper: 'Upper resistor',
    upperTolerance: 'Tolerance of the upper resistor',
    lower: 'Lower resistor',
    lowerTolerance: 'Tolerance of the lower resistor',
    largestVoltage: 'Largest voltage without the lamp',
    sourceResistance: 'Resistance of the generator',
    shunt: 'Shunt',
    shuntTolerance: 'Tolerance of the shunt',
    amplifierGain: 'Gain of the amplifier',
    amplifierGainTolerance: 'Tolerance of the gain',
    amplifierOffset: 'Offset of the amplifier',
    amplifierMargin: 'Its output stops short of its supply by',
    largestCurrent: 'Largest current',
    monitorGainTolerance: 'Tolerance of the monitor',
    meterRelative: 'Accuracy of the meter, of reading',
    meterCounts: 'Accuracy of the meter, counts',
    monitorShunt: 'Shunt',
    monitorShuntTolerance: 'Tolerance of the shunt',
    presentGain: 'Gain in the sketch now',
    presentOffset: 'Offset in the sketch now',
  },
  unit: { bits: 'bits', counts: 'counts' },
  fault: {
    empty: ({ label, instance }) => `${label}: type a number, for instance ${instance}.`,
    comma: ({ label }) => `${label}: use a decimal point, not a comma: 4.7 rather than 4,7.`,
    'no-number': ({ label, typed, instance }) =>
      `${label}: “${typed}” is not a number. Type one like ${instance}, without its unit.`,
    'not-whole': ({ label, instance }) =>
      `${label}: must be a whole number, for instance ${instance}.`,
    'out-of-limits': ({ label, least, most }) => `${label}: must be from ${least} to ${most}.`,
  },
  form: {
    converter: 'The board’s converter',
    board: 'Board',
    boards: { of8bit: '8-bit, 5\u202fV', of32bit: '32-bit, 3.3\u202fV' },
    boardHint:
      '5\u202fV from a USB port lie within 5\u202f%. The sketch sends the mean of many conversions, in parts of a step: it resolves them where the signal’s noise spreads over more than a step.',
    resistors: 'The two resistors',
    rig: 'The rig',
    rigHint: 'Measure the largest voltage with a multimeter: fan at its fastest, lamp taken out.',
    shunt: 'Shunt and amplifier',
    shuntHint:
      'Without an amplifier: gain 1 ± 0, offset 0, nearest 0. An amplifier of resistors has their tolerances added up.',
    monitor: 'Shunt and monitor',
    range: 'Range across the shunt',
  },
  circuit: {
    ground: 'ground',
    upper: 'R1 upper',
    lower: 'R2 lower',
    shunt: 'shunt',
    monitor: 'monitor',
    divider: (upper, lower) =>
      `Generator and lamp side by side. From the generator’s plus through the upper resistor, ${upper}, to pin A0, and from there through the lower resistor, ${lower}, to ground, which is the generator’s minus.`,
    amplified: (shunt, gain) =>
      `From the lamp through the shunt, ${shunt}, to ground, which is the generator’s minus. An amplifier, ${gain}, takes the voltage over the shunt to pin A1.`,
    monitored: (shunt) =>
      `From the generator’s plus through the monitor’s shunt, ${shunt}, to the lamp; lamp, generator’s minus and the monitor’s ground are one. The monitor speaks to the board over SDA and SCL.`,
  },
  offer: {
    resistors: (largest) => `Resistors in the shops for ${largest}`,
    shunt: (largest) => `Shunt in the shops for ${largest}`,
    over: (upper, lower) => `${upper} over ${lower}`,
    upTo: (series, parts, range) => `${series}: ${parts}, up to ${range}.`,
    take: 'Take it',
  },
  causes: {
    caption: 'Where the uncertainty comes from',
    part: 'part',
    limits: 'limits',
    adds: 'adds',
    together: 'together, in squares',
    shared: (cause) => `${cause} (shared)`,
  },
  sketch: {
    title: 'For the top of the sketch',
    copy: 'Copy',
    copied: 'Copied',
    marked: 'Marked: copy it now',
  },
  use: {
    heading: 'For the ± of every trial',
    tell: 'My rig has this',
    zeroed: 'A zero was taken with the fan off',
    kept: 'Kept for this board. It counts for the trials of this session, those before it too.',
    partsHint:
      'What a board says of its own calibration counts more: with the lines for the sketch it says so by itself.',
    comparedHint:
      'It counts once gain and offset are in the sketch. What a board says of its own calibration counts more.',
  },
  said: {
    atMost: 'at most',
    reads: (range, step, share) =>
      `Reads up to ${range} in steps of ${step}. The parts make every reading uncertain by ${share}, the same share each time.`,
    noTolerance: 'No tolerance was given, so this shows no uncertainty of the parts.',
    mostFrom: (cause, isShared) =>
      `Most of that comes from the ${cause}${isShared ? ', which voltage and current share' : ''}. A check against a multimeter takes its place.`,
    zero: (built, zeroed) =>
      `Its zero is uncertain by ${built} as built, by ${zeroed} once zeroed with the fan off.`,
    pinSees: (resistance) =>
      `The pin sees ${resistance}. Converters of 8-bit boards want 10\u202fkΩ or less.`,
    load: (voltage, current, lowered, heat) =>
      `At ${voltage} it takes ${current} from the generator, which lowers its voltage by ${lowered}; the resistors turn ${heat} into heat.`,
    clamps: (current) =>
      `With the generator the wrong way round, or too fast, the clamping diodes at the pin carry up to ${current}.`,
    shunt: (current, voltage, heat, rating) =>
      `At ${current} the shunt takes ${voltage} from the circuit and turns ${heat} into heat: take one rated ${rating} or more.`,
    floor: (current) =>
      `Below ${current} the amplifier’s output can’t follow: such currents read wrong, and a zero taken there hides an offset.`,
    busVoltage: (limit, step, share) =>
      `Voltage: up to ${limit} in steps of ${step}, uncertain by ${share}.`,
    monitorPins: (limit) =>
      `No pin of it may see less than −0.3\u202fV or more than ${limit}, not for a moment: check the generator’s polarity first.`,
    power: (share) =>
      `With the divider of this page, power is uncertain by ${share}: the converter’s reference serves both channels, so its share counts twice.`,
    tooSmall: (end, expected) => `Too small: it ends at ${end}, and you expect ${expected}.`,
    remedy: {
      divider: 'Take a larger upper resistor, or a smaller lower one.',
      shunt: 'Take a smaller shunt, or less gain.',
      monitor: 'Choose a wider range, or take a smaller shunt.',
    },
    pinSeesTooMuch: (resistance) =>
      `The pin sees ${resistance}: too much. The converter would still be filling up from the other channel. Take smaller resistors of the same ratio.`,
    clampsTooMuch: (current) =>
      `The clamping diodes might have to carry ${current}. Take a larger upper resistor, so that it stays below 5\u202fmA.`,
  },
  compared: {
    measured: 'What was measured',
    quantity: { voltage: 'Voltage, in V', current: 'Current, in mA' },
    readings: 'Readings of the same moment',
    heads: { meter: 'meter', page: 'page', leftOver: 'left over' },
    cell: {
      meter: (pair, unit) => `Pair ${pair}: meter, in ${unit}`,
      page: (pair, unit) => `Pair ${pair}: page, in ${unit}`,
    },
    onePairMore: 'One more pair',
    accuracy: 'The meter’s accuracy: ± of reading, and counts',
    accuracyHint: 'From the meter’s manual, for the range that it was in.',
    present: 'In the sketch while you read',
    fault: {
      meter: {
        comma: 'Reading of the meter: use a decimal point, not a comma: 2.31 rather than 2,31.',
        'no-number': 'Reading of the meter: type the number as it stands there, for instance 2.31.',
      },
      page: {
        comma: 'Reading of the page: use a decimal point, not a comma: 2.31 rather than 2,31.',
        'no-number': 'Reading of the page: type the number as it stands there, for instance 2.31.',
      },
    },
    tooFew:
      'Readings: at least two pairs are needed, far apart; three or more check themselves.',
    noLine:
      'No line goes through these: the readings of the page must differ, and rise when those of the meter rise.',
    gain: 'gain',
    scattered: (times) =>
      `The pairs lie ${times} times farther from a line than their last digits explain. Look for a misread number, or read again while both stand still.`,
    found: (gain, share, offset, uncertainty) =>
      `Gain ${gain}, uncertain by ${share}. Offset ${offset}, uncertain by ${uncertainty}.`,
    meterLimit: (reading, limit) =>
      `At ${reading} the meter itself may be off by ±${limit}. That is in it: it is the same for every pair, so more pairs don’t make it smaller.`,
    twoPairs: 'Two pairs always lie on a line. A third would show a misread number.',
    holdsFor:
      'It holds for the meter’s range, this USB port and this cable: when the converter’s reference is the USB voltage, check again with another laptop.',
  },
};
