import type { AnswerWords } from '../answer-words.ts';

export const frAnswer: AnswerWords = {
  best: (label, more, next) => `${label} donne le plus de puissance\u202f: ${more} ${next}, le suivant.`,
  percentMore: (percent) => `environ ${percent}\u202f% de plus que`,
  timesAsMuch: (times) => `environ ${times} fois autant que`,
  tied: (label, others) => `${label} est en tête pour l’instant, mais ne se distingue pas encore de ${others}.`,
  others: (count) => `${count} autres`,
  triedOnce: (label) => `${label} est en tête pour l’instant. Chaque réglage n’a été essayé qu’une fois.`,
  triedOnceSmall:
    'Personne ne sait encore de combien un réglage change quand on le refait\u202f: refaites-les tous une fois.',
  sameReadings: 'Toutes les mesures d’un réglage sont identiques\u202f: notez plus de chiffres.',
  nothingTurned: 'Les pales n’ont tourné dans aucune mesure.',
  didNotTurn: (labels) => `À ${labels}, les pales n’ont pas tourné.`,
  notAlwaysTurned: (labels) => `À ${labels}, elles n’ont pas toujours tourné.`,
  mostBetween: (low, high) => `Le maximum est entre ${low} et ${high}.`,
  mostAtEdge: (label) => `Le maximum est à ${label}, au bord de ce qui a été essayé, ou au-delà.`,
  run: (levels) => `Ensuite\u202f: ${levels}.`,
  levelTimes: (label, times) => `${label} ${times} fois`,
  itTakes: (trials) => `Il faudra en tout environ ${trials} mesures de plus.`,
  moreThanMany: (many) => `plus de ${many}`,
  settled: 'D’autres mesures n’y changeront rien.',
  tie: (labels) => `${labels} sont trop proches pour une séance\u202f: dites qu’ils sont à égalité.`,
  doThese: 'Faire celles-ci',
};
