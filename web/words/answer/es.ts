import type { AnswerWords } from '../answer-words.ts';

export const esAnswer: AnswerWords = {
  best: (label, more, next) => `${label} da la mayor potencia: ${more} ${next}, el siguiente.`,
  percentMore: (percent) => `alrededor de un ${percent} % más que`,
  timesAsMuch: (times) => `unas ${times} veces lo que da`,
  tied: (label, others) => `${label} va primero por ahora, pero aún no se distingue de ${others}.`,
  others: (count) => `otros ${count}`,
  triedOnce: (label) => `${label} va primero por ahora. Cada ajuste se ha probado una sola vez.`,
  triedOnceSmall: 'Nadie sabe aún cuánto cambia un ajuste al repetirlo: haced cada uno otra vez.',
  sameReadings: 'Todas las medidas de un ajuste son iguales: anotad más cifras.',
  nothingTurned: 'Las palas no giraron en ninguna medida.',
  didNotTurn: (labels) => `Con ${labels} las palas no giraron.`,
  notAlwaysTurned: (labels) => `Con ${labels} no siempre giraron.`,
  mostBetween: (low, high) => `El máximo está entre ${low} y ${high}.`,
  mostAtEdge: (label) => `El máximo está en ${label}, en el borde de lo probado, o más allá.`,
  run: (levels) => `Ahora haced ${levels}.`,
  levelTimes: (label, times) => `${label} ${times} veces`,
  itTakes: (trials) => `Harán falta en total unas ${trials} medidas más.`,
  moreThanMany: (many) => `más de ${many}`,
  settled: 'Más medidas no lo cambiarán.',
  tie: (labels) => `${labels} están demasiado cerca para una clase: decid que empatan.`,
  doThese: 'Hacer estas',
};
