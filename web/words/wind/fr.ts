import type { WindWords } from '../wind-words.ts';

export const frWind: WindWords = {
  share: (percent) => `${percent} de la puissance du vent`,
  offered: (power) => `Le vent portait ${power} à travers le cercle que tracent les pales.`,
  betz: (percent) => `Aucun rotor ne peut prendre plus de ${percent}\u202f: l’air doit pouvoir repartir.`,
  beyond: (percent) =>
    `Plus de ${percent}, c’est impossible pour tout rotor. Regarde les unités (mA ou A\u202f?), le rayon et l’endroit où le vent est mesuré.`,
  ideal: (percent) =>
    `À cette vitesse, même un rotor parfait prend au plus ${percent}\u202f: l’air derrière lui tourne.`,
  most: (cause, percent) => `La plus grande part de ce ±\u202f: ${cause}, ${percent}.`,
  cause: {
    power: 'puissance',
    'air density': 'le poids de l’air',
    'rotor radius': 'taille du rotor',
    'scatter of the wind': 'dispersion des lectures du vent',
    anemometer: 'l’anémomètre',
    gusts: 'rafales',
    'place of the anemometer': 'vent à sa place et au rotor',
    'correction of the wind': 'ce par quoi le vent a été corrigé',
  },
  gustsFrom: {
    samples: 'Les rafales y sont comme l’anémomètre les a lues.',
    'slow wind meter':
      'Les rafales sont prises comme d’habitude pour un ventilateur\u202f: l’anémomètre donne trop peu de nouveaux nombres par seconde pour les voir.',
    usual: 'Les rafales sont prises comme d’habitude pour un ventilateur.',
  },
  gap: {
    anemometer: 'ce que vaut l’anémomètre',
    'wind across the rotor': 'si tout le rotor reçoit le vent mesuré',
    correction: 'à quel point la correction du vent est connue',
  },
  why: {
    'no power': 'Sans puissance, il n’y a rien à comparer avec le vent.',
    'no wind reading': 'Dans cette mesure, le vent n’a pas été lu\u202f: sa puissance n’est pas connue.',
    'too little wind': 'L’anémomètre a à peine tourné\u202f: ce qu’il a montré ne dit rien.',
    'rotor not described': 'Quelle part de la puissance du vent est-ce\u202f? Dis la taille du rotor.',
    'blade length without a number': 'Le plan nomme les longueurs de pales sans dire combien elles mesurent.',
  },
  scale: { all: 'tout ce que porte le vent', betz: (percent) => `${percent}\u202f: limite de Betz` },
  turned: {
    channel: (turns) => `Le rotor a fait ${turns} tours par minute, comme la carte l’a lu.`,
    ripple: (turns) => `Le rotor a fait ${turns} tours par minute\u202f: cela s’entend dans l’ondulation de la tension.`,
    generator: (turns) => `Le rotor a fait ${turns} tours par minute, d’après les volts de la génératrice.`,
  },
  tips: (times) => `Ses bouts de pale allaient ${times} fois aussi vite que le vent.`,
  noRipple: {
    'below step': () =>
      'L’ondulation de la tension est plus petite qu’un pas des lectures, elle ne dit donc pas la vitesse.',
    'rate too low': (rate) =>
      `L’ondulation de la tension ne dit pas la vitesse\u202f: elle est plus rapide que la moitié de ${rate} lectures par seconde.`,
    'no line': (rate) =>
      `Aucune ondulation ne sort du bruit de la tension (${rate} lectures par seconde), elle ne dit donc pas la vitesse.`,
    'ripples not said': () =>
      'La tension ondule. Dis dans «\u202fRotor et air\u202f» combien d’ondulations fait un tour, et la vitesse sera connue.',
    mains: () => 'La tension ondule comme le secteur, cela ne dit donc pas la vitesse.',
    folded: (rate) =>
      `L’ondulation de la tension peut être plus rapide que ce que ${rate} lectures par seconde peuvent montrer. Avec la génératrice ajustée, ou le vent et le rayon connus, on pourrait le dire.`,
    several: () =>
      'La tension ondule de plusieurs façons qui ne vont pas avec une même vitesse, elle n’en dit donc aucune. Avec la génératrice ajustée, on pourrait le dire.',
    elsewhere: () =>
      'L’ondulation de la tension ne va pas avec les volts de la génératrice. Regarde le nombre d’ondulations par tour, et la génératrice.',
  },
  describe: 'Rotor et air',
  field: {
    radius: 'De l’axe au bout d’une pale, mm',
    hub: 'De l’axe au début des pales, mm',
    temperature: 'Température de l’air, °C',
    pressure: 'Pression de l’air ici, hPa',
    altitude: 'ou altitude, m',
    humidity: 'Humidité, %',
    anemometer: 'Anémomètre',
    rings: 'Vent à travers le rotor, m/s',
    atPlace: 'et à sa place habituelle, m/s',
    blades: 'Nombre de pales',
    chord: 'Largeur d’une pale, mm',
    angle: 'Angle des pales, °',
    wind: 'Vent, m/s',
    jet: 'Largeur du vent du ventilateur, mm',
    emf: 'Génératrice\u202f: volts à 1000 tours par minute',
    winding: 'Son bobinage, Ω',
    ripples: 'Ondulations de la tension par tour',
    friction: 'Ce qui fait juste tourner l’axe, mN·m',
    loadResistance: 'Charge\u202f: une résistance de, Ω',
    lampVoltage: 'ou une lampe de, V',
    lampCurrent: 'et, A',
  },
  hint: {
    hub: 'Vide\u202f: 0. La part du vent est celle de tout le cercle.',
    lengthVaried: 'Pas nécessaire\u202f: le plan change la longueur des pales.',
    altitude: 'Un des deux suffit.',
    humidity: 'Ce qui reste vide est pris aussi large qu’il peut l’être.',
    heard: (value) => `La carte dit ${value}, et c’est cela qui compte.`,
    rings: (radii) => `Rotor enlevé, tiens l’anémomètre à ${radii} de l’axe.`,
    ringsFirst: 'Dis d’abord la taille du rotor.',
    wind: 'Pas nécessaire si un anémomètre est lu.',
    emf: 'Tourné sans pales ni charge\u202f: 2,1 V à 1000 tours font 2,1.',
    ripples: 'Un petit moteur à trois encoches\u202f: 6. Sans cela, même une carte rapide ne peut dire la vitesse.',
    friction: 'Sans pales\u202f: grammes au fil × mm de son rayon ÷ 100.',
    load: 'Vide\u202f: volts sur ampères des essais.',
    fitted: (value) => `Ajusté à des relevés\u202f: ${value}, et c’est cela qui compte.`,
    fittedLamp: 'Une lampe a été ajustée à des relevés, et c’est cela qui compte.',
  },
  anemometer: {
    unknown: 'inconnu',
    vane: 'petite hélice, ±(3\u202f% + 0,1\u202fm/s)',
    cups: 'coupelles, ±(5\u202f% + 0,1\u202fm/s)',
  },
  problem: {
    needed: 'C’est nécessaire.',
    number: 'Ce n’est pas un nombre.',
    between: (low, high) => `De ${low} à ${high}.`,
    hub: 'Les pales doivent aller plus loin que cela.',
    rings: 'De deux à douze nombres, séparés par des espaces.',
    together: 'Il faut les deux, ou aucun.',
    whole: 'Un nombre entier.',
    disc: 'Tant de pales de cette largeur couvrent plus que le cercle.',
    oneLoad: 'Une résistance ou une lampe, pas les deux.',
    oneAir: 'La pression ou l’altitude, pas les deux.',
    jet: 'Un jet pas plus large que le moyeu ne touche aucune pale.',
  },
  forWhy: 'Pour la page «\u202fPourquoi\u202f»\u202f: tout peut rester vide, et est alors pris aussi large que possible.',
  use: 'Prendre ceci',
};
