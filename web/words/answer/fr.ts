import type { AnswerWords, SentenceWords } from '../answer-words.ts';

export const frAnswer: AnswerWords = {
  best: (label, more, next) => `${label} donne le plus de puissance\u202f: ${more} ${next}, le suivant.`,
  percentMore: (percent) => `environ ${percent}\u202f% de plus que`,
  timesAsMuch: (times) => `environ ${times} fois autant que`,
  tied: (label, others) => `${label} est en tête pour l’instant, mais ne se distingue pas encore de ${others}.`,
  others: (count) => `${count} autres`,
  triedOnce: (label) => `${label} est en tête pour l’instant. Chaque réglage n’a été essayé qu’une fois.`,
  triedOnceSmall:
    'Personne ne sait encore de combien un réglage change quand on le refait\u202f: refaites-les tous une fois.',
  sameOrder: 'Chaque tour a suivi le même ordre\u202f: ce qui change peu à peu (une lampe qui chauffe, un ventilateur qui faiblit) peut passer pour l’effet du niveau. Refaites un tour dans un autre ordre.',
  crept: ({ percent, isFall, isWithinRounds }) =>
    `Au même réglage, la puissance a ${isFall ? 'baissé' : 'monté'} de ${percent}. Aucune mesure n’est corrigée pour cela\u202f: ${isWithinRounds ? 'on compare dans chaque tour' : 'cela peut passer pour un effet du niveau'}.`,
  sameReadings: 'Toutes les mesures d’un réglage sont identiques\u202f: notez plus de chiffres.',
  nothingTurned: 'Les pales n’ont tourné dans aucune mesure.',
  didNotTurn: (labels) => `À ${labels}, les pales n’ont pas tourné.`,
  notAlwaysTurned: (labels) => `À ${labels}, elles n’ont pas toujours tourné.`,
  mostBetween: (low, high) => `Le maximum est entre ${low} et ${high}.`,
  mostAtEdge: (label) => `Le maximum est à ${label}, au bord de ce qui a été essayé, ou au-delà.`,
  load: {
    match: (resistance) => `On obtient le plus à ${resistance}\u202f: autant que semblent avoir rotor et générateur.`,
    source: (emf, resistance) => `La tension baisse avec le courant comme si ${emf} se trouvaient derrière ${resistance}. Une telle source donne le plus à une charge d’autant d’ohms. C’est le rotor et le générateur ensemble\u202f: une part vient du rotor qui ralentit.`,
    windUnread: 'Personne n’a mesuré le vent\u202f: c’est vrai s’il était chaque fois le même.',
    none: {
      'too few loads': 'Les meilleurs ohms ne se voient pas avec moins de trois charges.',
      'not a line': 'Les meilleurs ohms ne se voient pas\u202f: la tension ne baisse pas en ligne droite avec le courant.',
      'too vague': 'Les meilleurs ohms ne se voient pas\u202f: les mesures varient trop.',
      'wind differed': 'Les meilleurs ohms ne se voient pas\u202f: le vent n’était pas le même à toutes les charges.',
    },
  },
  run: (levels) => `Ensuite\u202f: ${levels}.`,
  levelTimes: (label, times) => `${label} ${times} fois`,
  itTakes: (trials) => `Il faudra en tout environ ${trials} mesures de plus.`,
  itTakesMany: (many) => `Il faudra en tout plus de ${many} mesures supplémentaires.`,
  settled: 'D’autres mesures ne sont pas nécessaires.',
  tie: (labels) => `${labels} sont trop proches pour une séance\u202f: dites qu’ils sont à égalité.`,
  doThese: 'Faire celles-ci',
};

export const frSentence: SentenceWords = {
  nothingYet: 'Rien d’enregistré pour l’instant.',
  nothingYetSmall: 'Chaque moment calme devient une mesure tout seul.',
  noneCounts: 'Aucune mesure ne compte pour l’instant.',
  whyNot: {
    struck: 'La dernière est barrée.',
    cutOff: 'La dernière a été coupée trop tôt.',
    noPower: 'La dernière n’a pas de puissance\u202f: il faut tension et courant.',
  },
  one: (result) => `Une mesure pour l’instant\u202f: ${result}.`,
  oneSmall: 'Refais la même\u202f: une seule ne dit pas de combien les répétitions s’écartent.',
  allAt: (count, value) => `${count} mesures pour l’instant, toutes à ${value}.`,
  range: (count, low, high) => `${count} mesures pour l’instant, de ${low} à ${high}.`,
  struck: (count) =>
    count === 1 ? '1 barrée, elle ne compte pas.' : `${count} barrées, elles ne comptent pas.`,
  noPlan: 'Sans plan ni répétitions, on ne peut pas dire quel réglage est le meilleur.',
  noneOfPlan: 'Aucune mesure n’appartient encore à ce plan.',
  oneLevel: (label) => `Pour l’instant, seul ${label} est essayé.`,
  onlyTurned: (label) => `Pour l’instant, les pales n’ont tourné qu’à ${label}.`,
  covered: 'La réponse est cachée. À quoi t’attends-tu\u202f?',
};
