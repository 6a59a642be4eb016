import type { FitWords } from '../fit-words.ts';

export const frFit: FitWords = {
  open: 'Ajuster au montage',
  heading: { generator: 'La génératrice', lamp: 'La lampe' },
  how: {
    generator:
      'Enlève les pales avant de faire tourner un axe à la main ou par un autre moteur\u202f; éloigne cheveux et manches. Relève vitesse, volts et milliampères avec des charges différentes, ou fais-la tourner sans charge.',
    lamp: 'Relève volts et milliampères à la lampe, d’à peine rouge à bien claire. Elle devient très chaude\u202f: laisse-la refroidir avant de la toucher.',
  },
  speed: 'La vitesse du rotor',
  speeds: {
    read: 'a été relevée chaque fois',
    held: 'n’a pas été relevée, mais tenue égale',
    free: 'n’a pas été relevée, et a baissé avec la charge',
  },
  column: { speed: 'tr/min', volts: 'V', amps: 'mA' },
  cell: (row, column) => `Relevé ${row}, ${column}`,
  take: 'Les prendre des essais',
  taken: (trials, passedOver) =>
    passedOver === 0
      ? `Pris des essais\u202f: ${trials}.`
      : `Pris des essais\u202f: ${trials}. Laissés, pour un autre réglage ou un autre vent\u202f: ${passedOver}.`,
  none: {
    'no trials': 'Aucun essai n’a lu à la fois volts et ampères pendant que cela tournait.',
    'load varied': 'Le plan met des charges différentes\u202f: ensemble, elles ne font pas une lampe.',
    'one load': 'La charge était la même dans tous les essais. Il faut au moins deux charges dans le même vent.',
  },
  emf: (volts) => `${volts} à 1000 tours par minute.`,
  winding: (ohms) => `Le bobinage a ${ohms}.`,
  windingAtMost: (ohms) =>
    `Le bobinage a au plus ${ohms}\u202f: la vitesse a baissé avec la charge, et cela y est compris.`,
  unloaded: (volts) => `Sans charge, elle donnerait ici ${volts}.`,
  exponent: (power) =>
    `Son courant suit la tension à la puissance ${power}\u202f; une lampe ordinaire a environ 0,55.`,
  lampAt: (volts, amperes) => `À ${volts}, elle prend ${amperes}.`,
  resistor: 'Son courant suit la tension\u202f: c’est une simple résistance.',
  leftOut: (readings) => `Laissés de côté, car le filament était trop froid\u202f: ${readings}.`,
  from: (readings) => `Relevés\u202f: ${readings}.`,
  scatter: (most) => `Ils s’écartent de la ligne d’au plus ${most}.`,
  gap: {
    'two currents': 'Il manque\u202f: deux relevés avec des charges différentes.',
    'two voltages': 'Il manque\u202f: deux relevés à des tensions différentes.',
    'a speed': 'Il manque\u202f: un relevé pendant qu’elle tourne.',
    'same speed': 'Cela ne va pas avec une génératrice\u202f: plus de courant et pourtant plus de volts. Regarde les vitesses et les nombres.',
    'speed for the constant': 'Les volts à 1000 tours ne peuvent se savoir sans la vitesse.',
    'speed for the winding': 'Les ohms du bobinage ne peuvent se savoir sans la vitesse. Rien ici ne peut servir.',
    'a load': 'Les ohms du bobinage ne peuvent se savoir sans charge.',
    'one more': 'Il manque\u202f: un relevé de plus, pour voir si c’est sûr.',
    'wider apart': 'Ce n’est pas encore sûr. Prends des relevés plus éloignés, ou plus nombreux.',
    'no filament': 'Ce n’est pas une lampe à filament. Est-ce une diode lumineuse, ou un nombre est-il faux\u202f?',
  },
  needed: 'C’est nécessaire.',
  between: (low, high) => `De ${low} à ${high}.`,
  use: 'Prendre ceci',
  leave: 'Ne plus s’en servir',
  inUse: 'En service\u202f: la page «\u202fPourquoi\u202f» compte avec.',
  otherInUse: 'D’autres relevés sont en service.',
  clear: 'Vider le tableau',
  axis: { behind: 'volts avant le bobinage', speed: 'tr/min', volts: 'volts', amps: 'milliampères' },
  picture: 'Points\u202f: relevé. Ligne\u202f: ajusté.',
};
