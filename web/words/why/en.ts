import type { WhyWords } from '../why-words.ts';

export const enWhy: WhyWords = {
  title: 'Why',
  toBench: 'Bench',
  waiting: 'Waiting for the program.',
  working: 'Working it out.',
  failed: {
    what: 'The reasons could not be worked out.',
    how: {
      'not-loaded':
        'The part of this page that works them out did not load. See that the program still runs and that this device still reaches it, then try again.',
      stumbled:
        'The part of this page that works them out broke off. Look at “Rotor and air” and at the plan for a number that can’t be right, then try again. If it stays so, save the session as a file and send it to whoever looks after the program, with the line below.',
    },
    kept: 'Nothing that was measured is touched by this: the trials, the answer and the report are as they were.',
    again: 'Try again',
  },
  none: {
    'no plan': 'There is no plan yet, so nothing is being compared.',
    'rotor not described':
      'The model does not know the rotor yet. On the bench page press a trial’s power, then “Rotor and air”, and say how large it is.',
    'factor of your own': 'The plan changes something that the model knows nothing of.',
    'levels without numbers': 'The plan’s levels are names without numbers, and the model needs numbers.',
    'no wind reading': 'The fan is what is changed, and the wind was not read at each of its settings.',
    'no such rotor':
      'There is no rotor with these sizes, or a level is none that a rig can have. Look at the plan, and at “Rotor and air”.',
  },
  section: {
    plot: 'Measured and expected',
    causes: 'Where the two differ',
    words: 'In plain words',
    flow: 'Where the power goes',
    limits: 'What the model does not know',
  },
  model: 'model',
  measured: 'measured',
  caption:
    'Heavy: what was measured, a ring for the mean on its 95\u202f% limits. Thin: what a model of this rig expects, a box for 95\u202f% of what it may be, a line for its best guess.',
  notTried: 'not tried',
  didNotTurn: 'did not turn',
  far: {
    less: (levels) => `Less than the model expects: ${levels}.`,
    more: (levels) => `More than the model expects: ${levels}.`,
  },
  isFar: { less: 'less', more: 'more' },
  allNear: 'All levels lie where the model expects them.',
  tips: (level, measured, model) =>
    `At ${level} the tips of the blades ran ${measured} times as fast as the wind; the model expects ${model}.`,
  nothingMeasured: 'Nothing has been measured yet: this is the model alone.',
  lookFirst: 'It would fit with one of these. Look at the first one first:',
  noCause: 'No single change of what was said of the rig explains it.',
  guess: 'These are guesses, not findings.',
  cause: {
    friction: (change) => `friction ${change} times as large`,
    load: (change) => `a load of ${change} times the ohms`,
    'wind speed': (change) => `a wind ${change} times as fast`,
    'generator constant': (change) => `a generator that gives ${change} times the volts`,
    'winding resistance': (change) => `a winding of ${change} times the ohms`,
    'jet narrower than the rotor': (change) => `a jet of wind only ${change} times as wide as the rotor`,
    'wind in km/h': () => 'wind read in km/h and put down as m/s',
    'wind in mph': () => 'wind read in miles an hour and put down as m/s',
    'diameter for radius': () => 'the rotor’s whole width put down as its radius',
    'angle from the axis': () => 'angles measured from the axis instead of from the rotor’s plane',
    'power in mW': () => 'power put down in mW but taken as W',
  },
  blades: {
    flatter: (degrees) => `blades ${degrees}° flatter than was said`,
    steeper: (degrees) => `blades ${degrees}° steeper than was said`,
  },
  agree: (level) => `${level} gave the most, and that is where the model expects it.`,
  agreeSoFar: (level, others) =>
    `${level} gave the most so far, and that is where the model expects it. It can’t be told from ${others} yet.`,
  sure: (level, guesses) =>
    `Of 100 guesses at what is not known for sure, ${guesses} have ${level} on top.`,
  soInGuesses: (guesses) => `So in ${guesses} of 100 guesses.`,
  perhaps: (measured, model) =>
    `${measured} gave the most. The model expects it at ${model}, but the two are too close to tell.`,
  disagree: (measured, model) =>
    `${measured} gave the most, but the model expects it at ${model}. So the model’s reasons may not hold here.`,
  bestFar: (level) =>
    `What ${level} gave lies outside what the model expects, so its reasons may not hold here.`,
  nothingStarts: 'At none of these levels does the model expect the rotor to start by itself.',
  expects: (level) => `The model expects the most at ${level}.`,
  compared: {
    'faster-harder': ({ best, other, speed }) =>
      `At ${best} the rotor turns ${speed} times as fast as at ${other}, and the wind drives it no less hard.`,
    'faster-softer': ({ best, other, speed, torque }) =>
      `At ${best} the rotor turns ${speed} times as fast as at ${other}. The wind drives it only ${torque} times as hard, but the speed makes up for that.`,
    'slower-harder': ({ best, other, speed, torque }) =>
      `At ${best} the rotor turns only ${speed} times as fast as at ${other}, but the wind drives it ${torque} times as hard.`,
  },
  glide: ({ best, other, bestGlide, otherGlide }) =>
    `At ${best} the air’s lift on a blade is ${bestGlide} times its drag, at ${other} only ${otherGlide} times. Lift pulls the blade round, drag holds it back.`,
  along: (best, other) =>
    `At ${best} as at ${other} the air slides nearly along the blades. Flat ones have to run faster for that, as a fine screw takes more turns than a coarse one.`,
  standing: ({ best, other, torque }) =>
    `On standing blades the wind pushes ${torque} times as hard round at ${other} as at ${best}: there the rotor starts more easily, and then turns more slowly.`,
  notLongest: ({ best, longest, now, then }) =>
    `Longer is not always better: at ${best} the model expects ${now}, at ${longest} only ${then}.`,
  beyondJetAt: (levels) =>
    `Blades that reach out of the fan’s wind: ${levels}. Out there they only beat still air.`,
  starts: {
    yes: (levels) => `Starts by itself: ${levels}.`,
    perhaps: (levels) => `May start by itself or not, a little friction decides: ${levels}.`,
    no: (levels) => `Does not start: ${levels}. On blades that stand still the wind’s push round is too weak.`,
    pushed: (levels) => `Does not start, but would go on turning if spun by hand: ${levels}.`,
    'neither-way': (levels) =>
      `At ${levels} the wind pushes the blades round neither way. They may turn only if they are set a little off.`,
  },
  turnedAnyway: (levels) => `On the bench it did turn, so there the model is wrong: ${levels}.`,
  stoodAnyway: (levels) => `On the bench it did not turn, so there the model is wrong: ${levels}.`,
  load: {
    more: ({ load, winding, now, then }) =>
      `The load asks for too much: it has ${load}, the generator’s own winding ${winding}. With twice the ohms the model expects ${then} instead of ${now}.`,
    less: ({ load, winding, now, then }) =>
      `The load asks for too little: it has ${load}, the generator’s own winding ${winding}. With half the ohms the model expects ${then} instead of ${now}.`,
    same: ({ load }) => `The load suits the rig: neither with half nor with twice its ${load} does the model expect clearly more.`,
    unsure: () => 'Whether another load would give more can’t be told from what is known of the rig.',
  },
  length: {
    more: ({ length, now, then }) =>
      `Longer blades should give more: a quarter longer than ${length}, and the model expects ${then} instead of ${now}.`,
    less: ({ length, now, then }) =>
      `Shorter blades should give more: a quarter shorter than ${length}, and the model expects ${then} instead of ${now}.`,
    same: ({ length }) => 
      `Neither a quarter longer nor a quarter shorter than ${length} should the blades give clearly more.`,
    unsure: () => 'Whether longer or shorter blades would give more can’t be told from what is known of the rig.',
  },
  beyondJet: 'The blades reach out of the fan’s wind: there they only beat still air.',
  shares: (load, winding, friction) =>
    `Of 100 parts that the rotor takes, about ${load} reach the load, ${winding} warm the generator’s winding, ${friction} rub off in bearings and brushes.`,
  flow: {
    at: (level) => `At ${level}`,
    row: {
      wind: 'wind on the whole circle',
      never: 'no rotor can take this: the air has to get away',
      left: 'could be taken, but blows past',
      rotor: 'the rotor takes',
      friction: 'bearings and brushes',
      winding: 'warms the winding',
      load: 'at the load',
      measured: 'at the load, measured',
    },
    larger: 'The rotor’s part, drawn larger',
    band: (low, high) => `${low} … ${high}`,
    ofWind: (percent) => `${percent} of the wind`,
    apart: 'What was measured lies outside what the model expects: its other shares may be off too.',
  },
  assumed: {
    wind: 'the wind',
    'wind across the rotor': 'the wind across the rotor',
    angle: 'the blade angle',
    blades: 'the number of blades',
    chord: 'the width of a blade',
    generator: 'the volts of the generator',
    winding: 'the ohms of its winding',
    friction: 'friction',
    load: 'the load',
  },
  notSaid: (what) => `Not said, so taken as usual and as widely as it may be: ${what}.`,
  fitted: {
    generator: 'the volts of the generator',
    winding: 'the ohms of its winding',
    load: 'the lamp',
  },
  fittedTo: (what) => `Fitted to readings of this rig: ${what}.`,
  limits: [
    'This is a model. Trust the order of the levels more than its watts.',
    'It takes an even wind, straight on. A fan’s wind swirls, and is slower in its middle.',
    'It takes thin flat blades, measured once elsewhere. Thick, rough or bent ones differ.',
  ],
};
