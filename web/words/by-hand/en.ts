import type { ByHandWords } from '../by-hand-words.ts';

const or = (names: readonly string[]): string => names.join(' or ');
const quoted = (names: readonly string[]): string => names.map((name) => `“${name}”`).join(', ');

export const enByHand: ByHandWords = {
  keyed: {
    open: 'Key in',
    heading: 'Readings of two meters',
    apart: 'What runs now is not your own bench. Readings of your meters go into a session of their own.',
    begin: 'Begin it',
    offer: 'No board? Type readings of two meters',
    forRun: 'For',
    noRun: 'no run',
    hasTrial: (trial) => `This run has trial ${trial} already. Another one is kept beside it.`,
    meter: { voltage: 'Voltmeter', current: 'Ammeter', windSpeed: 'Wind meter' },
    changeMeters: 'Other meters or ranges',
    addWindMeter: 'Add a wind meter',
    range: 'Range up to',
    lastDigit: 'Last digit',
    percent: '± % of reading',
    counts: '+ counts',
    unit: 'Unit',
    metersHint: 'From the manual: ±(% of reading + counts of the last digit), for the range that is set.',
    reading: (place) => `Reading ${place}`,
    addReading: 'One more reading',
    together: 'Read both meters at the same moment, all digits.',
    didNotTurn: 'It did not turn',
    note: 'Note',
    log: 'Log it',
    oneReading: 'One reading says nothing of its scatter: this ± is the meters’ alone. Three say more.',
    severalReadings: (count) => `Scatter of ${count} readings and the meters’ limits.`,
    toMend: (count) => (count === 1 ? '1 thing to mend first.' : `${count} things to mend first.`),
    fault: {
      empty: ({ instance }) => `Type a number, for instance ${instance}.`,
      overload: () => 'OL means that the range is too small. Set the meter to a larger one and read again.',
      'no-number': ({ typed, instance }) => `“${typed}” is not a number. Type one like ${instance}.`,
      'two-numbers': ({ typed, decimal, whole }) =>
        `“${typed}” could be ${decimal} or ${whole}. Type it with a point: ${decimal}, or without: ${whole}.`,
      'two-signs': ({ typed }) => `“${typed}” has more than one decimal sign. Leave one.`,
      'no-unit-wanted': ({ unit }) => `Leave “${unit}” out: a number alone is wanted.`,
      'unit-unknown': ({ unit, known }) => `“${unit}” is not known here. Use ${or(known)}.`,
      'nothing-read': () => 'Type at least one reading.',
      'not-above-zero': () => 'Type a number above 0.',
      'below-zero': () => 'Wind is not below 0. Leave the minus out.',
      'out-of-bounds': ({ most, unit }) => `From 0 to ${most} ${unit}.`,
      'digit-beyond-range': () => 'The last digit is worth less than the range. Check both.',
      'no-meter-is-exact': () =>
        'No meter is exact. Its manual gives the accuracy, for instance ±(0.8 % + 2).',
      'signs-differ': () =>
        'Voltage and current have opposite signs: on one meter the leads are swapped. Leave the minus out if the rest is right.',
      'wind-without-meter': () => 'Say first what the wind meter’s range and accuracy are.',
      'beyond-range': ({ reading, range }) =>
        `${reading} is more than this range shows (${range}). Set the meter to a larger range, choose it above, and read again.`,
      'between-steps': ({ reading, step }) =>
        `This range shows steps of ${step}; ${reading} lies between two. Check the reading and the range.`,
    },
  },
  imported: {
    open: 'Table',
    heading: 'A table of trials',
    hint: 'One row a trial, names of the columns with units in the first row: round,angle_deg,voltage_V,current_mA',
    choose: 'Choose a CSV file, or the session’s file of another group',
    paste: 'or paste it here',
    columns: 'Columns',
    notRead: 'Not read',
    heads: { line: 'Line', set: 'Set to', goesTo: 'Becomes' },
    noRun: 'no run',
    present: (trial) => `here already, trial ${trial}`,
    struck: 'struck',
    line: (line) => `Line ${line}`,
    wrong: (count) => (count === 1 ? '1 line can’t be read:' : `${count} lines can’t be read:`),
    understood: (rows) => (rows === 1 ? '1 row is understood.' : `${rows} rows are understood.`),
    presentCount: (count) =>
      count === 1
        ? '1 row is in this session already and is left out.'
        : `${count} rows are in this session already and are left out.`,
    takeAgain: 'Take them in once more',
    ofGroup: 'They are of group',
    asTold: 'as the table says',
    noUncertainty: 'Where the table tells no uncertainty, it is not known: “–” stands there.',
    bringIn: (rows) => (rows === 1 ? 'Bring in 1 trial' : `Bring in ${rows} trials`),
    withoutWrong: (rows, wrong) =>
      `Bring in ${rows} and leave out ${wrong === 1 ? '1 line' : `${wrong} lines`}`,
    nothing: 'There is nothing to bring in.',
    tooLarge: 'This file is too large for a table of trials.',
    noSession: 'This is no session’s file, or not all of it is there. Save it again on the other laptop, and copy it whole.',
    fault: {
      'table-empty': () => 'There is nothing in the table.',
      'not-text': () => 'This is not plain text. Save the table as CSV in UTF-8.',
      'row-endless': () =>
        'The row does not end: a quotation mark lacks its partner. Put it right and try again.',
      'too-many-rows': ({ most }) => `There are more than ${most} rows. Take out what is no trial.`,
      'column-twice': ({ column }) => `Two columns are called ${column}. Take one out.`,
      'columns-alike': ({ first, second }) =>
        `Columns ${first} and ${second} say the same. Take one out.`,
      'names-missing': () =>
        'There are numbers where the names of the columns should be. Put a row such as angle_deg,voltage_V,current_mA above them.',
      'no-power': () =>
        'There is neither power nor voltage and current. Name the columns with their units: voltage_V, current_mA, power_mW.',
      'no-factor': () => 'There is no column with the levels of a factor, for instance angle_deg.',
      'unit-missing': ({ column, wanted }) => `Column ${column} is not read: call it ${or(wanted)}.`,
      'field-count': ({ fields, columns }) =>
        `There are ${fields} fields, but ${columns} columns. Put the row right, or take it out.`,
      'cell-empty': ({ column }) => `${column} is empty. Fill it in, or take the row out.`,
      'level-unknown': ({ column, text, levels }) =>
        `“${text}” is no level of ${column} in the plan, which has ${quoted(levels)}.`,
      'too-long': ({ column, most }) => `${column} has more than ${most} letters. Shorten it.`,
      'other-sign': ({ column, text, sign }) =>
        `${column}: “${text}” could be two numbers. ${
          sign === '.'
            ? 'Use a point as the decimal sign in the whole table.'
            : 'Other numbers of the table have a decimal comma. Use one sign in the whole table.'
        }`,
      'no-number': ({ column, text }) =>
        `${column}: “${text}” is not a number. Put it right, or take the row out.`,
      'below-zero': ({ column }) => `${column} is below 0. Put it right, or take the row out.`,
      'not-possible': ({ column, text }) =>
        `${column}: ${text} is not possible here. Check the number and the unit in the first row.`,
      'value-missing': ({ quantity }) =>
        `There is no ${quantity === 'voltage_V' ? 'voltage' : 'current'}. Fill it in, or take the row out.`,
      'power-disagrees': ({ stated, product }) =>
        `Power is ${stated} W, but voltage times current is ${product} W. Check the units in the first row.`,
      simulated: () =>
        'This row is simulated: nothing was measured. It is not brought into a bench’s own session.',
      'neither-yes-nor-no': ({ column, text }) =>
        `${column}: “${text}” is neither yes nor no. Put 1 for a struck row, else nothing.`,
    },
  },
};
