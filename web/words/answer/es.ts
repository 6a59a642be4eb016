import type { AnswerWords, SentenceWords } from '../answer-words.ts';

export const esAnswer: AnswerWords = {
  best: (label, more, next) => `${label} da la mayor potencia: ${more} ${next}, el siguiente.`,
  percentMore: (percent) => `alrededor de un ${percent} % más que`,
  timesAsMuch: (times) => `unas ${times} veces lo que da`,
  tied: (label, others) => `${label} va primero por ahora, pero aún no se distingue de ${others}.`,
  others: (count) => `otros ${count}`,
  triedOnce: (label) => `${label} va primero por ahora. Cada ajuste se ha probado una sola vez.`,
  triedOnceSmall: 'Nadie sabe aún cuánto cambia un ajuste al repetirlo: haced cada uno otra vez.',
  sameOrder: 'Cada ronda tuvo el mismo orden: lo que cambia poco a poco (una lámpara que se calienta, un ventilador que se frena) puede parecer efecto del nivel. Haced otra ronda en otro orden.',
  crept: ({ percent, isFall, isWithinRounds }) =>
    `Con el mismo ajuste, la potencia ha ${isFall ? 'bajado' : 'subido'} un ${percent}. Ninguna medida se corrige por eso: ${isWithinRounds ? 'se compara dentro de cada ronda' : 'puede parecer efecto del nivel'}.`,
  sameReadings: 'Todas las medidas de un ajuste son iguales: anotad más cifras.',
  nothingTurned: 'Las palas no giraron en ninguna medida.',
  didNotTurn: (labels) => `Con ${labels} las palas no giraron.`,
  notAlwaysTurned: (labels) => `Con ${labels} no siempre giraron.`,
  mostBetween: (low, high) => `El máximo está entre ${low} y ${high}.`,
  mostAtEdge: (label) => `El máximo está en ${label}, en el borde de lo probado, o más allá.`,
  load: {
    match: (resistance) => `Lo máximo sale con ${resistance}: los que parecen tener el rotor y el generador.`,
    source: (emf, resistance) => `La tensión baja con la corriente como si hubiera ${emf} detrás de ${resistance}. Una fuente así da lo máximo a una carga de los mismos ohmios. Son el rotor y el generador juntos: una parte es que el rotor se frena.`,
    windUnread: 'Nadie ha medido el viento: esto vale si fue igual cada vez.',
    none: {
      'too few loads': 'Los mejores ohmios no se pueden decir con menos de tres cargas.',
      'not a line': 'Los mejores ohmios no se pueden decir: la tensión no baja en línea recta con la corriente.',
      'too vague': 'Los mejores ohmios no se pueden decir: las medidas varían demasiado.',
      'wind differed': 'Los mejores ohmios no se pueden decir: el viento no fue igual con todas las cargas.',
    },
  },
  run: (levels) => `Ahora haced ${levels}.`,
  levelTimes: (label, times) => `${label} ${times} veces`,
  itTakes: (trials) => `Harán falta en total unas ${trials} medidas más.`,
  itTakesMany: (many) => `Harán falta en total más de ${many} medidas más.`,
  settled: 'No hacen falta más medidas.',
  tie: (labels) => `${labels} están demasiado cerca para una clase: decid que empatan.`,
  doThese: 'Hacer estas',
};

export const esSentence: SentenceWords = {
  nothingYet: 'Todavía nada guardado.',
  nothingYetSmall: 'Cada tramo quieto se convierte solo en una medida.',
  noneCounts: 'Todavía no cuenta ninguna medida.',
  whyNot: {
    struck: 'La última está tachada.',
    cutOff: 'La última se cortó demasiado pronto.',
    noPower: 'La última no tiene potencia: hacen falta tensión y corriente.',
  },
  one: (result) => `Una medida por ahora: ${result}.`,
  oneSmall: 'Repite lo mismo: una sola no dice cuánto se separan las repeticiones.',
  allAt: (count, value) => `${count} medidas por ahora, todas en ${value}.`,
  range: (count, low, high) => `${count} medidas por ahora, de ${low} a ${high}.`,
  struck: (count) => (count === 1 ? '1 tachada, no cuenta.' : `${count} tachadas, no cuentan.`),
  noPlan: 'Sin plan ni repeticiones no se puede decir cuál es el mejor ajuste.',
  noneOfPlan: 'Todavía ninguna medida es de este plan.',
  oneLevel: (label) => `Por ahora solo se ha probado ${label}.`,
  onlyTurned: (label) => `Por ahora las palas solo giraron con ${label}.`,
  covered: 'La respuesta está tapada. ¿Qué esperas?',
};
