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
  },
  gap: {
    anemometer: 'ce que vaut l’anémomètre',
    'wind across the rotor': 'si tout le rotor reçoit le vent mesuré',
  },
  why: {
    'no power': 'Sans puissance, il n’y a rien à comparer avec le vent.',
    'no wind reading': 'Dans cette mesure, le vent n’a pas été lu\u202f: sa puissance n’est pas connue.',
    'too little wind': 'L’anémomètre a à peine tourné\u202f: ce qu’il a montré ne dit rien.',
    'rotor not described': 'Quelle part de la puissance du vent est-ce\u202f? Dis la taille du rotor.',
    'blade length without a number': 'Le plan nomme les longueurs de pales sans dire combien elles mesurent.',
  },
  scale: { all: 'tout ce que porte le vent', betz: (percent) => `${percent}\u202f: limite de Betz` },
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
  },
  hint: {
    hub: 'Vide\u202f: 0. La part du vent est celle de tout le cercle.',
    lengthVaried: 'Pas nécessaire\u202f: le plan change la longueur des pales.',
    altitude: 'Un des deux suffit.',
    humidity: 'Ce qui reste vide est pris aussi large qu’il peut l’être.',
    heard: (value) => `La carte dit ${value}, et c’est cela qui compte.`,
    rings: (radii) => `Rotor enlevé, tiens l’anémomètre à ${radii} de l’axe.`,
    ringsFirst: 'Dis d’abord la taille du rotor.',
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
  },
  use: 'Prendre ceci',
};
