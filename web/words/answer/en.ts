import type { AnswerWords, SentenceWords } from '../answer-words.ts';

export const enAnswer: AnswerWords = {
  best: (label, more, next) => `${label} gives the most power: ${more} ${next}, the next best.`,
  percentMore: (percent) => `about ${percent} % more than`,
  timesAsMuch: (times) => `about ${times} times as much as`,
  tied: (label, others) => `${label} is highest so far, but can’t be told apart from ${others} yet.`,
  others: (count) => `${count} others`,
  triedOnce: (label) => `${label} is highest so far. Each level was tried only once.`,
  triedOnceSmall: 'Nobody can know yet how much a level changes when it is set again: do every level once more.',
  sameOrder: 'Every round had the same order, so what creeps (a lamp that warms, a fan that tires) may pass for the level: do one more round in another order.',
  crept: ({ percent, isFall, isWithinRounds }) =>
    `Power at like settings ${isFall ? 'fell' : 'rose'} by ${percent}. No trial is corrected for it: ${isWithinRounds ? 'levels are compared within rounds' : 'it may pass for the level'}.`,
  sameReadings: 'All trials of a level read exactly the same: write down more digits.',
  nothingTurned: 'The blades did not turn in any trial.',
  didNotTurn: (labels) => `At ${labels} the blades did not turn.`,
  notAlwaysTurned: (labels) => `At ${labels} they did not always turn.`,
  mostBetween: (low, high) => `The most lies between ${low} and ${high}.`,
  mostAtEdge: (label) => `The most lies at ${label}, at the edge of what was tried, or beyond it.`,
  load: {
    match: (resistance) => `The most comes at ${resistance}: as many as rotor and generator seem to have.`,
    source: (emf, resistance) => `Voltage falls with current as if ${emf} stood behind ${resistance}. Such a source gives the most to a load of as many ohms. They are rotor and generator together: part of them is the rotor slowing down.`,
    windUnread: 'Nobody has read the wind: that holds if it was the same each time.',
    none: {
      'too few loads': 'The best ohms can’t be told from fewer than three loads.',
      'not a line': 'The best ohms can’t be told: voltage does not fall in a straight line with current.',
      'too vague': 'The best ohms can’t be told: the trials wander too much.',
      'wind differed': 'The best ohms can’t be told: the wind was not the same at all loads.',
    },
  },
  run: (levels) => `Do ${levels} next.`,
  levelTimes: (label, times) => (times === 2 ? `${label} twice` : `${label} ${times} times`),
  itTakes: (trials) => `It will take about ${trials} more trials in all.`,
  itTakesMany: (many) => `It will take more than ${many} more trials in all.`,
  settled: 'No more trials are needed.',
  tie: (labels) => `${labels} are too close to tell apart in a lesson: say that they tie.`,
  doThese: 'Do these',
};

export const enSentence: SentenceWords = {
  nothingYet: 'Nothing logged yet.',
  nothingYetSmall: 'Each steady stretch becomes a trial by itself.',
  noneCounts: 'No trial counts yet.',
  whyNot: {
    struck: 'The newest is struck.',
    cutOff: 'The newest was cut off too soon.',
    noPower: 'The newest has no power: that takes voltage and current.',
  },
  one: (result) => `One trial so far: ${result}.`,
  oneSmall: 'Do the same again: a single trial can’t tell how far repeats would lie apart.',
  allAt: (count, value) => `${count} trials so far, all at ${value}.`,
  range: (count, low, high) => `${count} trials so far, from ${low} to ${high}.`,
  struck: (count) => `${count} struck and left out.`,
  noPlan: 'Which level is best can’t be told without a plan and repeats.',
  noneOfPlan: 'No trial belongs to this plan yet.',
  oneLevel: (label) => `So far only ${label} has been tried.`,
  onlyTurned: (label) => `So far the blades turned only at ${label}.`,
  covered: 'The answer is covered. What do you expect?',
};
