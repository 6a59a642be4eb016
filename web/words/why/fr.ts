import type { WhyWords } from '../why-words.ts';

export const frWhy: WhyWords = {
  title: 'Pourquoi',
  toBench: 'Banc',
  waiting: 'En attente du programme.',
  working: 'Calcul en cours.',
  failed: {
    what: 'Les raisons n’ont pas pu être calculées.',
    how: {
      'not-loaded':
        'La partie de cette page qui les calcule ne s’est pas chargée. Vérifie que le programme tourne encore et que cet appareil peut le joindre, puis réessaie.',
      stumbled:
        'La partie de cette page qui les calcule s’est interrompue. Cherche dans «\u202fRotor et air\u202f» et dans le plan un nombre impossible, puis réessaie. Si rien ne change, enregistre la séance dans un fichier et donne-la, avec la ligne ci-dessous, à la personne qui s’occupe du programme.',
    },
    kept: 'Rien de ce qui a été mesuré n’est touché\u202f: les essais, la réponse et le rapport sont comme avant.',
    again: 'Réessayer',
  },
  none: {
    'no plan': 'Il n’y a pas encore de plan, donc rien à comparer.',
    'rotor not described':
      'Le modèle ne connaît pas encore le rotor. Au poste de mesure, touche la puissance d’un essai, puis «\u202fRotor et air\u202f», et dis sa taille.',
    'factor of your own': 'Le plan change une chose que le modèle ne connaît pas.',
    'levels without numbers': 'Les niveaux du plan sont des noms sans nombres, et le modèle a besoin de nombres.',
    'no wind reading': 'C’est le ventilateur qui change, et le vent n’a pas été lu à chacun de ses niveaux.',
    'no such rotor':
      'Il n’y a pas de rotor de ces tailles, ou un niveau qu’aucun montage ne peut avoir. Vérifie le plan et «\u202fRotor et air\u202f».',
  },
  section: {
    plot: 'Mesuré et attendu',
    causes: 'Là où les deux diffèrent',
    words: 'En mots simples',
    flow: 'Où va la puissance',
    limits: 'Ce que le modèle ne sait pas',
  },
  model: 'modèle',
  measured: 'mesuré',
  caption:
    'En gras\u202f: ce qui a été mesuré, un anneau pour la moyenne sur ses limites à 95\u202f%. En fin\u202f: ce qu’attend un modèle de ce montage, une boîte pour 95\u202f% de ce qui est possible, un trait pour le plus probable.',
  notTried: 'pas essayé',
  didNotTurn: 'n’a pas tourné',
  far: {
    less: (levels) => `Moins que ce que le modèle attend\u202f: ${levels}.`,
    more: (levels) => `Plus que ce que le modèle attend\u202f: ${levels}.`,
  },
  isFar: { less: 'moins', more: 'plus' },
  allNear: 'Tous les niveaux sont là où le modèle les attend.',
  tips: (level, measured, model) =>
    `À ${level}, les bouts de pale allaient à ${measured} fois la vitesse du vent\u202f; le modèle attend ${model}.`,
  nothingMeasured: 'Rien n’est encore mesuré\u202f: voici le modèle seul.',
  lookFirst: 'L’une de ces causes l’expliquerait. Vérifie d’abord la première\u202f:',
  noCause: 'Aucun changement, à lui seul, de ce qui a été dit du montage ne l’explique.',
  guess: 'Ce sont des suppositions, pas des résultats.',
  cause: {
    friction: (change) => `un frottement ${change} fois celui qui a été pris`,
    load: (change) => `une charge de ${change} fois ces ohms`,
    'wind speed': (change) => `un vent ${change} fois aussi rapide`,
    'generator constant': (change) => `une génératrice qui donne ${change} fois ces volts`,
    'winding resistance': (change) => `un bobinage de ${change} fois ces ohms`,
    'jet narrower than the rotor': (change) => `un jet de vent large de seulement ${change} fois le rotor`,
    'wind in km/h': () => 'un vent lu en km/h et noté en m/s',
    'wind in mph': () => 'un vent lu en miles par heure et noté en m/s',
    'diameter for radius': () => 'toute la largeur du rotor notée comme son rayon',
    'angle from the axis': () => 'des angles mesurés depuis l’axe et non depuis le plan du rotor',
    'power in mW': () => 'une puissance notée en mW mais prise en W',
  },
  blades: {
    flatter: (degrees) => `des pales ${degrees}° plus à plat qu’indiqué`,
    steeper: (degrees) => `des pales ${degrees}° plus inclinées qu’indiqué`,
  },
  agree: (level) => `${level} a donné le plus, et c’est là que le modèle l’attend.`,
  agreeSoFar: (level, others) =>
    `${level} a donné le plus jusqu’ici, et c’est là que le modèle l’attend. On ne peut pas encore le distinguer de ${others}.`,
  sure: (level, guesses) =>
    `Sur 100 suppositions pour ce qui n’est pas connu avec certitude, ${guesses} mettent ${level} en tête.`,
  soInGuesses: (guesses) => `C’est le cas dans ${guesses} suppositions sur 100.`,
  perhaps: (measured, model) =>
    `${measured} a donné le plus. Le modèle l’attend à ${model}, mais les deux sont trop proches pour le dire.`,
  disagree: (measured, model) =>
    `${measured} a donné le plus, mais le modèle l’attend à ${model}. Les raisons du modèle ne valent donc peut-être pas ici.`,
  bestFar: (level) =>
    `Ce qu’a donné ${level} est en dehors de ce que le modèle attend, donc ses raisons ne valent peut-être pas ici.`,
  nothingStarts: 'À aucun de ces niveaux le modèle n’attend que le rotor démarre seul.',
  expects: (level) => `Le modèle attend le plus à ${level}.`,
  compared: {
    'faster-harder': ({ best, other, speed }) =>
      `À ${best} le rotor tourne ${speed} fois aussi vite qu’à ${other}, et le vent ne l’entraîne pas moins fort.`,
    'faster-softer': ({ best, other, speed, torque }) =>
      `À ${best} le rotor tourne ${speed} fois aussi vite qu’à ${other}. Le vent l’entraîne seulement ${torque} fois aussi fort, mais la vitesse le compense.`,
    'slower-harder': ({ best, other, speed, torque }) =>
      `À ${best} le rotor tourne seulement ${speed} fois aussi vite qu’à ${other}, mais le vent l’entraîne ${torque} fois aussi fort.`,
  },
  glide: ({ best, other, bestGlide, otherGlide }) =>
    `À ${best} la portance sur une pale vaut ${bestGlide} fois sa traînée, à ${other} seulement ${otherGlide} fois. La portance fait tourner la pale, la traînée la retient.`,
  along: (best, other) =>
    `À ${best} comme à ${other}, l’air glisse presque le long des pales. Les plus plates doivent aller plus vite pour cela, comme une vis à pas fin fait plus de tours qu’une vis à gros pas.`,
  standing: ({ best, other, torque }) =>
    `Sur des pales arrêtées, le vent pousse ${torque} fois aussi fort à ${other} qu’à ${best}\u202f: là le rotor démarre plus facilement, puis tourne plus lentement.`,
  notLongest: ({ best, longest, now, then }) =>
    `Plus long n’est pas toujours mieux\u202f: à ${best} le modèle attend ${now}, à ${longest} seulement ${then}.`,
  beyondJetAt: (levels) =>
    `Sortent du vent du ventilateur\u202f: ${levels}. Là, les pales ne battent que de l’air immobile.`,
  starts: {
    yes: (levels) => `Démarre seul\u202f: ${levels}.`,
    perhaps: (levels) => `Démarre peut-être, un peu de frottement en décide\u202f: ${levels}.`,
    no: (levels) => `Ne démarre pas\u202f: ${levels}. Sur des pales arrêtées, le vent pousse trop peu pour les faire tourner.`,
    pushed: (levels) => `Ne démarre pas, mais continuerait si on le lançait à la main\u202f: ${levels}.`,
    'neither-way': (levels) =>
      `À ${levels}, le vent ne pousse les pales ni dans un sens ni dans l’autre. Elles ne peuvent tourner que si elles sont un peu de travers.`,
  },
  turnedAnyway: (levels) => `Sur la table il a bien tourné, là le modèle a tort\u202f: ${levels}.`,
  stoodAnyway: (levels) => `Sur la table il n’a pas tourné, là le modèle a tort\u202f: ${levels}.`,
  load: {
    more: ({ load, winding, now, then }) =>
      `La charge demande trop\u202f: elle a ${load}, le bobinage de la génératrice ${winding}. Avec deux fois plus d’ohms, le modèle attend ${then} au lieu de ${now}.`,
    less: ({ load, winding, now, then }) =>
      `La charge demande trop peu\u202f: elle a ${load}, le bobinage de la génératrice ${winding}. Avec deux fois moins d’ohms, le modèle attend ${then} au lieu de ${now}.`,
    same: ({ load }) => `La charge convient\u202f: ni avec la moitié ni avec le double de ses ${load} le modèle n’attend nettement plus.`,
    unsure: () => 'Avec ce qu’on sait du montage, on ne peut pas dire si une autre charge donnerait plus.',
  },
  length: {
    more: ({ length, now, then }) =>
      `Des pales plus longues devraient donner plus\u202f: un quart de plus que ${length}, et le modèle attend ${then} au lieu de ${now}.`,
    less: ({ length, now, then }) =>
      `Des pales plus courtes devraient donner plus\u202f: un quart de moins que ${length}, et le modèle attend ${then} au lieu de ${now}.`,
    same: ({ length }) => 
      `Ni un quart plus longues ni un quart plus courtes que ${length}, les pales ne devraient donner nettement plus.`,
    unsure: () => 'Avec ce qu’on sait du montage, on ne peut pas dire si des pales plus longues ou plus courtes donneraient plus.',
  },
  beyondJet: 'Les pales sortent du vent du ventilateur\u202f: là, elles ne battent que de l’air immobile.',
  shares: (load, winding, friction) =>
    `Sur 100 parts que prend le rotor, environ ${load} arrivent à la charge, ${winding} chauffent le bobinage de la génératrice, ${friction} se perdent dans les paliers et les balais.`,
  flow: {
    at: (level) => `À ${level}`,
    row: {
      wind: 'vent sur tout le cercle',
      never: 'aucun rotor ne peut le prendre\u202f: l’air doit repartir',
      left: 'pourrait être pris, mais passe à côté',
      rotor: 'le rotor prend',
      friction: 'paliers et balais',
      winding: 'chauffe le bobinage',
      load: 'à la charge',
      measured: 'à la charge, mesuré',
    },
    larger: 'La part du rotor, dessinée plus grande',
    band: (low, high) => `${low} … ${high}`,
    ofWind: (percent) => `${percent} du vent`,
    apart: 'La mesure est en dehors de ce que le modèle attend\u202f: ses autres parts sont peut-être fausses aussi.',
  },
  assumed: {
    wind: 'le vent',
    'wind across the rotor': 'le vent à travers le rotor',
    angle: 'l’angle des pales',
    blades: 'le nombre de pales',
    chord: 'la largeur d’une pale',
    generator: 'les volts de la génératrice',
    winding: 'les ohms de son bobinage',
    friction: 'le frottement',
    load: 'la charge',
  },
  notSaid: (what) => `Non indiqué, donc pris à sa valeur habituelle, avec toute la marge possible\u202f: ${what}.`,
  fitted: {
    generator: 'les volts de la génératrice',
    winding: 'les ohms de son bobinage',
    load: 'la lampe',
  },
  fittedTo: (what) => `Ajusté à des relevés de ce montage\u202f: ${what}.`,
  limits: [
    'C’est un modèle. Fie-toi plus à l’ordre des niveaux qu’à ses watts.',
    'Il suppose un vent régulier, bien de face. Celui d’un ventilateur tourne et il est plus lent au milieu.',
    'Il suppose des pales fines et plates, mesurées une fois ailleurs. Épaisses, rugueuses ou courbées, elles diffèrent.',
  ],
};
