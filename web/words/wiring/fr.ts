import type { WiringWords } from '../wiring-words.ts';

export const frWiring: WiringWords = {
  page: 'Montage',
  heading: 'Que va-t-il lire, et avec quelle exactitude\u202f?',
  toBench: 'Banc',
  toWorkOut: 'Ce qui se calcule',
  kind: {
    divider: 'Tension, deux résistances',
    shunt: 'Courant, shunt et amplificateur',
    monitor: 'Les deux, module de mesure I²C',
    meter: 'Comparer à un multimètre',
  },
  result: 'Ce que cela donne',
  nothingYet: 'Encore rien à dire. Regarde ce qui est marqué.',
  cautions:
    'Les dessins montrent le principe. Construis-le comme docs/wiring.md le dessine, avec les pièces qui protègent la carte et les personnes. Très basse tension seulement, jusqu’à 30\u202fV\u202f: jamais le secteur, celui des prises, même pas pour le mesurer. Suis les règles du lieu, et demande à une personne qualifiée quand tu n’es pas sûr.',
  field: {
    reference: 'Référence du convertisseur',
    referenceTolerance: 'Tolérance de la référence',
    bits: 'Bits du convertisseur',
    partsPerStep: 'Comptes par pas',
    upper: 'Résistance du haut',
    upperTolerance: 'Tolérance de la résistance du haut',
    lower: 'Résistance du bas',
    lowerTolerance: 'Tolérance de la résistance du bas',
    largestVoltage: 'Plus grande tension sans la lampe',
    sourceResistance: 'Résistance du générateur',
    shunt: 'Shunt',
    shuntTolerance: 'Tolérance du shunt',
    amplifierGain: 'Gain de l’amplificateur',
    amplifierGainTolerance: 'Tolérance du gain',
    amplifierOffset: 'Décalage de l’amplificateur',
    amplifierMargin: 'Sa sortie s’arrête avant son alimentation, de',
    largestCurrent: 'Plus grand courant',
    monitorGainTolerance: 'Tolérance du module de mesure',
    meterRelative: 'Exactitude de l’appareil, de la lecture',
    meterCounts: 'Exactitude de l’appareil, digits',
    monitorShunt: 'Shunt',
    monitorShuntTolerance: 'Tolérance du shunt',
    presentGain: 'Gain qui est dans le sketch',
    presentOffset: 'Décalage qui est dans le sketch',
  },
  unit: { bits: 'bits', counts: 'digits' },
  fault: {
    empty: ({ label, instance }) => `${label}\u202f: tape un nombre, par exemple ${instance}.`,
    comma: ({ label, typed }) =>
      `${label}\u202f: «\u202f${typed}\u202f» a trop de signes entre les chiffres. Une seule virgule, et pas de point pour les milliers.`,
    'no-number': ({ label, typed, instance }) =>
      `${label}\u202f: «\u202f${typed}\u202f» n’est pas un nombre. Tape-en un comme ${instance}, sans son unité.`,
    'not-whole': ({ label, instance }) =>
      `${label}\u202f: il faut un nombre entier, par exemple ${instance}.`,
    'out-of-limits': ({ label, least, most }) => `${label}\u202f: il faut de ${least} à ${most}.`,
  },
  form: {
    converter: 'Le convertisseur de la carte',
    board: 'Carte',
    boards: { of8bit: '8 bits, 5\u202fV', of32bit: '32 bits, 3,3\u202fV' },
    boardHint:
      'Les 5\u202fV d’un port USB ont une tolérance de ±5\u202f%. Le sketch envoie la moyenne de nombreuses conversions, en parties de pas\u202f: elles valent là où le bruit du signal s’étend sur plus d’un pas.',
    resistors: 'Les deux résistances',
    rig: 'Le montage',
    rigHint:
      'Mesure la plus grande tension avec un multimètre\u202f: ventilateur au plus fort, lampe retirée.',
    shunt: 'Shunt et amplificateur',
    shuntHint:
      'Sans amplificateur\u202f: gain 1 ± 0, décalage 0, marge 0. Pour un amplificateur fait de résistances, leurs tolérances s’ajoutent.',
    monitor: 'Shunt et module de mesure',
    range: 'Calibre aux bornes du shunt',
  },
  circuit: {
    ground: 'masse',
    upper: 'R1 haut',
    lower: 'R2 bas',
    shunt: 'shunt',
    monitor: 'module',
    divider: (upper, lower) =>
      `Générateur et lampe côte à côte. Du plus du générateur, par la résistance du haut, ${upper}, à la broche A0, et de là par la résistance du bas, ${lower}, à la masse, qui est le moins du générateur.`,
    amplified: (shunt, gain) =>
      `De la lampe, par le shunt, ${shunt}, à la masse, qui est le moins du générateur. Un amplificateur, ${gain}, amène la tension du shunt à la broche A1.`,
    monitored: (shunt) =>
      `Du plus du générateur, par le shunt du module de mesure, ${shunt}, à la lampe\u202f; la lampe, le moins du générateur et la masse du module ne font qu’un. Le module parle à la carte par SDA et SCL.`,
  },
  offer: {
    resistors: (largest) => `Résistances du commerce pour ${largest}`,
    shunt: (largest) => `Shunt du commerce pour ${largest}`,
    over: (upper, lower) => `${upper} sur ${lower}`,
    upTo: (series, parts, range) => `${series}\u202f: ${parts}, jusqu’à ${range}.`,
    take: 'Prendre cela',
  },
  causes: {
    caption: 'D’où vient l’incertitude',
    part: 'pièce',
    limits: 'limites',
    adds: 'apporte',
    together: 'en tout, en carrés',
    shared: (cause) => `${cause} (commun)`,
  },
  sketch: {
    title: 'Pour le début du sketch',
    copy: 'Copier',
    copied: 'Copié',
    marked: 'Marqué\u202f: copie-le maintenant',
  },
  use: {
    heading: 'Pour le ± de chaque mesure',
    tell: 'Mon montage est ainsi',
    zeroed: 'Un zéro a été pris, ventilateur arrêté',
    kept: 'Gardé pour cette carte. Cela vaut pour les mesures de cette séance, celles d’avant aussi.',
    partsHint:
      'Ce qu’une carte dit de son propre étalonnage compte plus\u202f: avec les lignes pour le sketch, elle le dit toute seule.',
    comparedHint:
      'Cela compte une fois le gain et le décalage dans le sketch. Ce qu’une carte dit de son propre étalonnage compte plus.',
  },
  said: {
    atMost: 'au plus',
    reads: (range, step, share) =>
      `Lit jusqu’à ${range} par pas de ${step}. Les pièces rendent chaque lecture incertaine de ${share}, toujours de la même part.`,
    noTolerance: 'Aucune tolérance n’est donnée\u202f: ceci ne montre donc pas l’incertitude des pièces.',
    mostFrom: (cause, isShared) =>
      `Le plus vient de\u202f: ${cause}${isShared ? ', commun à la tension et au courant' : ''}. Une comparaison à un multimètre prend sa place.`,
    zero: (built, zeroed) =>
      `Son zéro est incertain de ${built} tel que construit, de ${zeroed} une fois pris, ventilateur arrêté.`,
    pinSees: (resistance) =>
      `Devant la broche il y a ${resistance}. Les convertisseurs des cartes 8 bits veulent 10\u202fkΩ ou moins.`,
    load: (voltage, current, lowered, heat) =>
      `À ${voltage} il prend ${current} au générateur, ce qui baisse sa tension de ${lowered}\u202f; les résistances changent ${heat} en chaleur.`,
    clamps: (current) =>
      `Avec le générateur à l’envers, ou trop rapide, il passe jusqu’à ${current} dans les diodes de protection de la broche.`,
    shunt: (current, voltage, heat, rating) =>
      `À ${current} le shunt prend ${voltage} au circuit et change ${heat} en chaleur\u202f: prends-en un de ${rating} ou plus.`,
    floor: (current) =>
      `Au-dessous de ${current} la sortie de l’amplificateur ne peut pas suivre\u202f: ces courants sont mal lus, et un zéro pris là cache un décalage.`,
    busVoltage: (limit, step, share) =>
      `Tension\u202f: jusqu’à ${limit} par pas de ${step}, incertaine de ${share}.`,
    monitorPins: (limit) =>
      `Aucune de ses broches ne doit recevoir moins de −0,3\u202fV ni plus de ${limit}, pas même un instant\u202f: vérifie d’abord où est le plus du générateur.`,
    power: (share) =>
      `Avec le diviseur de cette page, la puissance est incertaine de ${share}\u202f: la référence du convertisseur sert aux deux voies, sa part compte donc double.`,
    tooSmall: (end, expected) => `Trop petit\u202f: cela finit à ${end}, et tu attends ${expected}.`,
    remedy: {
      divider: 'Prends une résistance du haut plus grande, ou une du bas plus petite.',
      shunt: 'Prends un shunt plus petit, ou moins de gain.',
      monitor: 'Choisis un calibre plus grand, ou prends un shunt plus petit.',
    },
    pinSeesTooMuch: (resistance) =>
      `Devant la broche il y a ${resistance}\u202f: c’est trop. Il resterait dans le convertisseur quelque chose de l’autre voie. Prends des résistances plus petites, dans le même rapport.`,
    clampsTooMuch: (current) =>
      `Il pourrait passer ${current} dans les diodes de protection. Prends une résistance du haut plus grande, pour rester au-dessous de 5\u202fmA.`,
  },
  compared: {
    measured: 'Ce qui a été mesuré',
    quantity: { voltage: 'Tension, en V', current: 'Courant, en mA' },
    readings: 'Lectures du même moment',
    heads: { meter: 'appareil', page: 'page', leftOver: 'reste' },
    cell: {
      meter: (pair, unit) => `Paire ${pair}\u202f: appareil, en ${unit}`,
      page: (pair, unit) => `Paire ${pair}\u202f: page, en ${unit}`,
    },
    onePairMore: 'Une paire de plus',
    accuracy: 'Exactitude de l’appareil\u202f: ± de la lecture, et digits',
    accuracyHint: 'Dans la notice de l’appareil, pour le calibre utilisé.',
    present: 'Dans le sketch pendant que tu lis',
    fault: {
      meter: {
        comma: 'Lecture de l’appareil\u202f: une seule virgule, pas de point pour les milliers, par exemple 2,31.',
        'no-number': 'Lecture de l’appareil\u202f: tape le nombre comme il est là, par exemple 2,31.',
      },
      page: {
        comma: 'Lecture de la page\u202f: une seule virgule, pas de point pour les milliers, par exemple 2,31.',
        'no-number': 'Lecture de la page\u202f: tape le nombre comme il est là, par exemple 2,31.',
      },
    },
    tooFew:
      'Il faut au moins deux paires, bien écartées\u202f; trois ou plus se vérifient elles-mêmes.',
    noLine:
      'Aucune droite ne passe par là\u202f: les lectures de la page doivent être différentes, et monter quand celles de l’appareil montent.',
    gain: 'gain',
    scattered: (times) =>
      `Les paires sont ${times} fois plus loin d’une droite que leurs derniers chiffres ne l’expliquent. Cherche un nombre mal lu, ou relis quand les deux sont immobiles.`,
    found: (gain, share, offset, uncertainty) =>
      `Gain ${gain}, incertain de ${share}. Décalage ${offset}, incertain de ${uncertainty}.`,
    meterLimit: (reading, limit) =>
      `À ${reading} l’appareil lui-même peut se tromper de ±${limit}. C’est compté\u202f: c’est le même pour chaque paire, et plus de paires n’y changent rien.`,
    twoPairs: 'Deux paires sont toujours sur une droite. Une troisième montrerait un nombre mal lu.',
    holdsFor:
      'Cela vaut pour ce calibre de l’appareil, ce port USB et ce câble\u202f: si la référence du convertisseur est la tension USB, compare de nouveau avec un autre ordinateur.',
  },
};
