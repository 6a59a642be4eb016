import { enAnswer, enSentence } from './answer/en.ts';
import { enBench } from './bench/en.ts';
import { enBoard } from './board/en.ts';
import { enBudget } from './budget/en.ts';
import { enFit } from './fit/en.ts';
import type { Catalogue } from './catalogue.ts';
import { enNetwork } from './network/en.ts';
import { listedIn } from './lists.ts';
import { withPoint } from './numbers.ts';
import { enTop } from './top/en.ts';
import { enRig } from './rig/en.ts';
import { enWind } from './wind/en.ts';

const QUANTITY = { voltage_V: 'Voltage', current_A: 'Current', windSpeed_mps: 'Wind', power_W: 'Power' };
const WATT = { µ: 'microwatt', m: 'milliwatt', '': 'watt', k: 'kilowatt' };

export const en: Catalogue = {
  language: 'en',
  name: 'English',
  bench: enBench,
  network: enNetwork,
  board: enBoard,
  budget: enBudget,
  wind: enWind,
  fit: enFit,
  rig: enRig,
  number: withPoint,
  quantity: QUANTITY,
  list: listedIn('en-GB'),
  top: enTop,
  instruction: {
    windOnly: ['It does not', 'turn yet.'],
    connecting: ['Connecting.'],
    noNews: ['No news.'],
    noBoard: ['Plug the', 'board in.'],
    meters: ['Read both', 'meters.'],
    starting: ['Board is', 'starting.'],
    unplugged: ['Board', 'unplugged.'],
    silent: ['Board is', 'silent.'],
    refused: {
      busy: ['Board is', 'in use.'],
      denied: ['Not allowed', 'yet.'],
      missing: ['Board', 'has gone.'],
      failed: ['Board', 'won’t open.'],
    },
    unreadable: ['Can’t read', 'the board.'],
    unmapped: ['Which number', 'is what?'],
    ended: ['The end.'],
    waiting: ['Start', 'the fan.'],
    spinningUp: ['Stand back.', 'Spinning up.'],
    runningDown: ['Wait. Blades', 'still turning.'],
    windDies: ['Wait. Wind', 'still blowing.'],
    moving: ['Hands off.', 'Still moving.'],
    settling: ['Hands off.', 'Almost still.'],
    hold: ['Hold still.'],
    still: ['Still.'],
    logged: ['Still.', 'Logged.'],
    didNotTurn: ['Logged. It', 'did not turn.'],
    disturbed: ['Bumped!', 'Wait again.'],
    unsettled: {
      cycle: ['It keeps', 'hunting.'],
      gusts: ['The wind', 'keeps gusting.'],
      drift: ['It keeps', 'creeping.'],
    },
    stopFan: ['Stop', 'the fan.'],
    startFan: ['Stand back.', 'Start the fan.'],
    finished: ['All runs', 'are done.'],
    paused: ['Wait.', 'Not logging.'],
    set: ({ kind, name, level: { label, value } }) => {
      switch (kind) {
        case 'angle':
          return ['Set blades', `to ${label}.`];
        case 'length':
          return ['Fit blades:', `${label}.`];
        case 'blades':
          return value === null ? ['Fit blades:', `${label}.`] : ['Fit', bladesOf(value)];
        case 'fan':
          return ['Set the fan', `to ${label}.`];
        case 'load':
          return ['Set the load', `to ${label}.`];
        case 'own':
          return [`${name}:`, `${label}.`];
      }
    },
    setAll: (labels) => ['Set up:', `${labels.join(', ')}.`],
  },
  below: {
    connecting: {
      moving: 'Asking the program on the laptop for readings.',
      detail: '',
      state: 'Asking the laptop',
    },
    noNews: (time) => ({
      moving: `Nothing from the laptop for ${time}. Trying again.`,
      detail: 'The laptop may still be logging. This page takes up again by itself.',
      state: `None for ${time}. Trying again.`,
    }),
    noBoard: {
      moving: 'No board found yet.',
      detail: 'It is taken up by itself.',
      state: 'No board found yet',
    },
    meters: {
      moving:
        'Wait until both stand still, then key in what they show.',
      detail: 'What they show is logged as soon as it is keyed in.',
      state: 'Key in what they show',
    },
    readMeters: {
      moving:
        'Fan off, blades at rest? Then set it. Start the fan, stand back, wait until both meters stand still.',
      detail: 'Nothing here can hear the rig: look first, every time.',
      state: 'Fan off before you set',
    },
    starting: {
      moving: 'Waiting for its first reading.',
      detail: '',
      state: 'Waiting for a reading',
    },
    unplugged: {
      moving: 'Push the cable in.',
      detail: 'What was logged is safe. The board is taken up again by itself.',
      state: 'Push the cable in',
    },
    silent: {
      moving: 'No reading comes. Push the cable in, or press the board’s reset.',
      detail: 'What was logged is safe.',
      state: 'Push the cable in',
    },
    refused: { moving: '', detail: 'It is tried again by itself.', state: 'See the laptop' },
    unreadable: (firstLine) => ({
      moving: 'Text arrives, but no readings. Is the board’s serial speed right?',
      detail: `Its first line should name the columns, like: ${firstLine}`,
      state: 'See the laptop',
    }),
    unmappedYet: {
      moving: 'The board has not said yet. It does so every 10\u202fs.',
      detail: '',
      state: 'The board will say',
    },
    unmapped: (firstLine) => ({
      moving: 'Numbers arrive, but nothing names them. Name them below.',
      detail: `Or let the board send a first line like: ${firstLine}`,
      state: 'See the laptop',
    }),
    ended: {
      moving: 'The recording has been played to its end.',
      detail: '',
      state: 'The recording is over',
    },
    spinningUp: 'Keep hands, hair and sleeves away.',
    still: (time) => ({ moving: `Recording: ${time} so far.`, detail: '', state: `Recording: ${time}` }),
    notSaved: {
      moving: 'Not logged: saving has stopped.',
      detail: 'It is logged as soon as saving works again.',
      state: 'Not saved yet',
    },
    logged: {
      moving: 'Now stop the fan. Wait for the blades to stop.',
      detail: '',
      state: 'Now stop the fan',
    },
    disturbed: 'Nothing is lost. It logs when it is still.',
    unsettled: {
      cycle: {
        moving: 'Power swings up and down; waiting won’t stop it.',
        detail:
          'Look for a slipping blade or a rubbing shaft. Or turn the blades a little, or move the fan. Fan off first, and let the blades stop.',
        state: 'Waiting won’t stop it',
      },
      gusts: {
        moving: 'Waiting won’t calm it.',
        detail: 'Close doors and windows, keep people out of the stream, or move the fan.',
        state: 'Close doors, stand clear',
      },
      drift: {
        moving: 'Power still goes one way after half a minute.',
        detail: 'Let fan and lamp warm up, and check that no blade is slipping. Fan off first, and let the blades stop.',
        state: 'Let fan and lamp warm up',
      },
    },
    stopFan: {
      moving: 'Touch nothing yet.',
      detail: 'Let the blades stop by themselves.',
      state: 'Touch nothing yet',
    },
    bladesTurn: {
      moving: 'Touch nothing until they stand.',
      detail: 'Let the blades stop by themselves.',
      state: 'Touch nothing yet',
    },
    windDies: {
      moving: 'Touch nothing until the fan stands.',
      detail: 'Let the fan stop by itself.',
      state: 'Touch nothing yet',
    },
    setBlades: {
      moving: 'Look first: nothing may turn. Fan off? Then set it and step back.',
      detail: 'Blades fast in the hub? Hands, hair and sleeves clear?',
      state: 'Look: nothing may turn',
    },
    setBladesUnheard: {
      moving: 'Look first: is the fan off, and does nothing turn? Then set it and step back.',
      detail: 'Nothing here can hear the fan. Press the key when it is set.',
      state: 'Look: fan off? All still?',
    },
    startFan: {
      moving: 'Hands, hair and sleeves clear. Then start the fan.',
      detail: 'Each steady stretch is logged by itself.',
      state: 'Hands and hair clear?',
    },
    finished: {
      moving: 'Every run of the plan has its trial.',
      detail: 'Another look? Add a run, or make a new plan.',
      state: 'The plan is complete',
    },
    paused: {
      moving: 'Nothing is logged until you go on.',
      detail: 'Readings are still recorded.',
      state: 'The operator said wait',
    },
    nothingTurns: 'Nothing turns yet.',
    windWithoutTurn: {
      moving: 'There is wind, but nothing turns yet.',
      detail: 'Hands off. If it stays so, that is logged as a result too.',
      state: 'Hands off',
    },
    noWind: 'No wind yet.',
    eachIsLogged: 'Each steady stretch is logged by itself.',
    logsItself: 'It logs by itself.',
    logsUsually: (time) => `It logs by itself, usually ${time} after the start.`,
    allJoined: 'All threads joined.',
    left: (time) => `${time} left.`,
    loose: (loose, all) =>
      loose === all ? `All ${all} threads loose.` : `${loose} of ${all} threads loose.`,
    looseShort: (loose) => (loose === 1 ? '1 thread loose' : `${loose} threads loose`),
    saved: (trial, time) => `Trial ${trial} was saved at ${time}.`,
    savedStill: (trial, time) => `Trial ${trial}: it did not turn. Saved at ${time}.`,
    savedAs: (trial, result, time) => `Trial ${trial}, ${result}, was saved at ${time}.`,
  },
  motion: {
    still: 'still',
    upAndDown: 'up and down',
    rising: 'rising',
    falling: 'falling',
    change: (amount, time) => `${amount} in ${time}`,
    goesUpAndDown: (quantity) => `${QUANTITY[quantity]} goes up and down.`,
    stillRises: (quantity, change) => `${QUANTITY[quantity]} still rises: ${change}.`,
    stillFalls: (quantity, change) => `${QUANTITY[quantity]} still falls: ${change}.`,
    noReading: 'no reading',
  },
  plan: {
    setting: ({ kind, name, level: { label, value } }) => {
      switch (kind) {
        case 'angle':
          return `Blades at ${label}`;
        case 'length':
          return `Blades: ${label}`;
        case 'blades':
          return value === null ? `Blades: ${label}` : bladesOf(value).replace('.', '');
        case 'fan':
          return `Fan at ${label}`;
        case 'load':
          return `Load: ${label}`;
        case 'own':
          return `${name}: ${label}`;
      }
    },
    trial: (id) => `Trial ${id}`,
    countOf: (count, all) => `${count} of ${all}`,
    runOf: (run, all) => `Run ${run} of ${all}`,
    round: (round) => `Round ${round}`,
    group: (group) => `Group ${group}`,
    now: 'now',
    next: 'next',
    nextIs: (label) => `Next: ${label}`,
    done: 'done',
    toCome: 'to come',
    skipped: 'left out',
    again: 'again',
    reference: 'reference',
    powerAt: (factor) => `Power by ${factor.toLowerCase()}`,
    atLeast: 'at least',
  },
  question: {
    asked: {
      'is-fan-on': ['Is the fan', 'on?'],
      unsettled: ['It will not', 'settle.'],
      unassigned: ['Which run', 'was this?'],
    },
    isFanOn: 'Nothing turns. Is the fan on?',
    unsettled: 'It will not settle. Take the average, leave this run out, or wait?',
    unassigned: (trial) => `Trial ${trial} is steady, but no run asked for it. Which run was it?`,
    onLaptop: 'Answer on the laptop',
    above: 'Answer above',
    yesItRuns: 'Yes, it runs',
    noItIsOff: 'No, it is off',
    average: 'Take the average',
    skip: 'Leave this run out',
    wait: 'Wait on',
    leaveIt: 'Leave it without a run',
    giveTo: (label) => `It was ${label}`,
  },
  doubt: {
    'far-from-others': (trial, percent) =>
      `Trial ${trial} lies ${percent} away from its repeats. Was the setting right?`,
    'wind-drift': (trial, percent) =>
      `In trial ${trial} the wind was ${percent} off. Has the fan been moved?`,
    'power-drift': (trial, percent, isLess) =>
      `Up to trial ${trial}, power at the same settings has ${isLess ? 'fallen' : 'risen'} by ${percent}. Something has changed.`,
  },
  answer: enAnswer,
  sentence: enSentence,
  page: {
    simulated: 'SIMULATED · NO BOARD · ',
    simulatedSpoken: 'Simulated. No board.',
    replay: 'REPLAY · NOTHING IS RECORDED',
    replaySimulated: 'REPLAY · SIMULATED · NOTHING IS RECORDED',
    replaySpoken: 'Replay of an earlier session. Nothing is recorded.',
    replaySimulatedSpoken: 'Replay of a simulated session. Nothing is recorded.',
    watchingOnly: 'Watching only.',
    lastLogged: 'last logged',
    soFar: 'so far',
    power: (value) => `Power ${value}`,
    powerUnknown: 'Power not known',
    language: 'Language',
    sectionNow: 'Now',
    sectionPlot: 'Power of each trial',
    sectionSaid: 'What can be said so far',
    coveredPlot: 'Covered',
    storeStopped: 'Saving has stopped.',
    noFit: (problem) => `Page and program do not fit together (${problem}). Reload the page.`,
    runsDone: (count, all) => `${count} of ${all} runs done.`,
    markAt: (label, results) => `${label}: ${results}`,
  },
  voice: {
    unit: { '°': 'degrees', mm: 'millimetres', cm: 'centimetres', m: 'metres', Ω: 'ohms', V: 'volts' },
    power: (value, prefix) => `${value} ${WATT[prefix]}${value === '1' ? '' : 's'}`,
    logged: (power) => `Settled. ${power}. Stop the fan.`,
    loggedByHand: (power) => `Logged. ${power}. Stop the fan.`,
    didNotTurn: 'Logged. It did not turn. Stop the fan.',
    disturbed: 'Bumped. Wait again.',
    unplugged: 'Board unplugged. Push the cable in.',
    finished: 'All runs are done.',
    notSaved: 'Saving has stopped. See the laptop.',
    touchToHear: 'Sound is on. Click once to hear it.',
    noVoice: 'This device has no voice. The words stay on the page.',
    otherVoice: (name) => `No English voice here: ${name} reads.`,
    on: 'Voice on',
    off: 'Voice off',
  },
};

function bladesOf(count: number): string {
  return count === 1 ? '1 blade.' : `${count} blades.`;
}
