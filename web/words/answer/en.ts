import type { AnswerWords } from '../answer-words.ts';

export const enAnswer: AnswerWords = {
  best: (label, more, next) => `${label} gives the most power: ${more} ${next}, the next best.`,
  percentMore: (percent) => `about ${percent} % more than`,
  timesAsMuch: (times) => `about ${times} times as much as`,
  tied: (label, others) => `${label} is highest so far, but can’t be told apart from ${others} yet.`,
  others: (count) => `${count} others`,
  triedOnce: (label) => `${label} is highest so far. Each level was tried only once.`,
  triedOnceSmall: 'Nobody can know yet how much a level changes when it is set again: do every level once more.',
  sameReadings: 'All trials of a level read exactly the same: write down more digits.',
  nothingTurned: 'The blades did not turn in any trial.',
  didNotTurn: (labels) => `At ${labels} the blades did not turn.`,
  notAlwaysTurned: (labels) => `At ${labels} they did not always turn.`,
  mostBetween: (low, high) => `The most lies between ${low} and ${high}.`,
  mostAtEdge: (label) => `The most lies at ${label}, at the edge of what was tried, or beyond it.`,
  run: (levels) => `Do ${levels} next.`,
  levelTimes: (label, times) => (times === 2 ? `${label} twice` : `${label} ${times} times`),
  itTakes: (trials) => `It will take about ${trials} more trials in all.`,
  moreThanMany: (many) => `more than ${many}`,
  settled: 'More trials won’t change that.',
  tie: (labels) => `${labels} are too close to tell apart in a lesson: say that they tie.`,
  doThese: 'Do these',
};
