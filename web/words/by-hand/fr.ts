import type { ByHandWords } from '../by-hand-words.ts';
import { withComma } from '../numbers.ts';

const or = (names: readonly string[]): string => names.join(' ou ');
const quoted = (names: readonly string[]): string =>
  names.map((name) => `«\u202f${name}\u202f»`).join(', ');

export const frByHand: ByHandWords = {
  keyed: {
    open: 'Saisir',
    heading: 'Lectures de deux appareils',
    apart: 'Ce qui tourne n’est pas ton montage. Ce que tes appareils affichent va dans une séance à part.',
    begin: 'La commencer',
    offer: 'Pas de carte\u202f? Saisis ce qu’affichent deux appareils',
    forRun: 'Pour',
    noRun: 'aucun essai',
    hasTrial: (trial) => `Cet essai a déjà la mesure ${trial}. Une autre est gardée à côté.`,
    meter: { voltage: 'Voltmètre', current: 'Ampèremètre', windSpeed: 'Anémomètre' },
    changeMeters: 'Autres appareils ou calibres',
    addWindMeter: 'Ajouter un anémomètre',
    range: 'Calibre jusqu’à',
    lastDigit: 'Dernier chiffre',
    percent: '± % de lecture',
    counts: '+ digits',
    unit: 'Unité',
    metersHint: 'Dans la notice\u202f: ±(% de la lecture + digits du dernier chiffre), pour le calibre choisi.',
    reading: (place) => `Lecture ${place}`,
    addReading: 'Encore une lecture',
    together: 'Lis les deux au même moment, tous les chiffres.',
    didNotTurn: 'Ça n’a pas tourné',
    note: 'Note',
    log: 'Enregistrer',
    oneReading: 'Une seule lecture ne dit rien de sa dispersion\u202f: ce ± vient des appareils seuls. Trois en disent plus.',
    severalReadings: (count) => `Dispersion de ${count} lectures et limites des appareils.`,
    toMend: (count) => (count === 1 ? 'D’abord 1 chose à corriger.' : `D’abord ${count} choses à corriger.`),
    fault: {
      empty: ({ instance }) => `Tape un nombre, par exemple ${withComma(instance)}.`,
      overload: () => 'OL veut dire que le calibre est trop petit. Choisis-en un plus grand et relis.',
      'no-number': ({ typed, instance }) =>
        `«\u202f${typed}\u202f» n’est pas un nombre. Tapes-en un comme ${withComma(instance)}.`,
      'two-numbers': ({ typed, decimal, whole }) =>
        `«\u202f${typed}\u202f» peut être ${decimal} ou ${whole}. Tape-le avec un point\u202f: ${decimal}, ou sans\u202f: ${whole}.`,
      'two-signs': ({ typed }) => `«\u202f${typed}\u202f» a plus d’un signe décimal. Gardes-en un.`,
      'no-unit-wanted': ({ unit }) => `Retire «\u202f${unit}\u202f»\u202f: il faut seulement le nombre.`,
      'unit-unknown': ({ unit, known }) =>
        `«\u202f${unit}\u202f» n’est pas connu ici. Utilise ${or(known)}.`,
      'nothing-read': () => 'Tape au moins une lecture.',
      'not-above-zero': () => 'Tape un nombre supérieur à 0.',
      'below-zero': () => 'Le vent n’est pas inférieur à 0. Retire le moins.',
      'out-of-bounds': ({ most, unit }) => `De 0 à ${most} ${unit === '%' ? '%' : 'digits'}.`,
      'digit-beyond-range': () => 'Le dernier chiffre vaut moins que le calibre. Vérifie les deux.',
      'no-meter-is-exact': () =>
        'Aucun appareil n’est exact. La notice dit à combien près, par exemple ±(0,8 % + 2).',
      'signs-differ': () =>
        'Tension et courant ont des signes opposés\u202f: sur un appareil, les fils sont inversés. Retire le moins si le reste est juste.',
      'wind-without-meter': () => 'Dis d’abord le calibre et la précision de l’anémomètre.',
      'beyond-range': ({ reading, range }) =>
        `${withComma(reading)} dépasse ce que montre ce calibre (${withComma(range)}). Choisis-en un plus grand, indique-le plus haut et relis.`,
      'between-steps': ({ reading, step }) =>
        `Ce calibre avance par pas de ${withComma(step)}\u202f; ${withComma(reading)} est entre deux. Vérifie lecture et calibre.`,
    },
  },
  imported: {
    open: 'Tableau',
    heading: 'Un tableau de mesures',
    hint: 'Une ligne par mesure\u202f; sur la première, les noms avec unité\u202f: round,angle_deg,voltage_V,current_mA',
    choose: 'Choisir un fichier CSV, ou le fichier de séance d’un autre groupe',
    paste: 'ou colle-le ici',
    columns: 'Colonnes',
    notRead: 'Non lues',
    heads: { line: 'Ligne', set: 'Réglage', goesTo: 'Devient' },
    noRun: 'aucun essai',
    present: (trial) => `déjà là, mesure ${trial}`,
    struck: 'barrée',
    line: (line) => `Ligne ${line}`,
    wrong: (count) => (count === 1 ? '1 ligne illisible\u202f:' : `${count} lignes illisibles\u202f:`),
    understood: (rows) => (rows === 1 ? '1 ligne comprise.' : `${rows} lignes comprises.`),
    presentCount: (count) =>
      count === 1
        ? '1 ligne est déjà dans cette séance et reste de côté.'
        : `${count} lignes sont déjà dans cette séance et restent de côté.`,
    takeAgain: 'Les reprendre encore',
    ofGroup: 'Elles sont du groupe',
    asTold: 'comme dit le tableau',
    noUncertainty: 'Où le tableau ne dit pas l’incertitude, elle n’est pas connue\u202f: on y lit «\u202f–\u202f».',
    bringIn: (rows) => (rows === 1 ? 'Reprendre 1 mesure' : `Reprendre ${rows} mesures`),
    withoutWrong: (rows, wrong) =>
      `En reprendre ${rows}, laisser ${wrong === 1 ? '1 ligne' : `${wrong} lignes`}`,
    nothing: 'Il n’y a rien à reprendre.',
    tooLarge: 'Ce fichier est trop grand pour un tableau de mesures.',
    noSession: 'Ce n’est pas le fichier d’une séance, ou il n’est pas entier. Enregistre-le encore sur l’autre ordinateur et copie-le en entier.',
    fault: {
      'table-empty': () => 'Le tableau est vide.',
      'not-text': () => 'Ce n’est pas du texte simple. Enregistre le tableau en CSV, UTF-8.',
      'row-endless': () =>
        'La ligne ne finit pas\u202f: un guillemet n’a pas son pendant. Corrige et réessaie.',
      'too-many-rows': ({ most }) => `Il y a plus de ${most} lignes. Retire ce qui n’est pas une mesure.`,
      'column-twice': ({ column }) => `Deux colonnes s’appellent ${column}. Retires-en une.`,
      'columns-alike': ({ first, second }) =>
        `Les colonnes ${first} et ${second} disent la même chose. Retires-en une.`,
      'names-missing': () =>
        'Il y a des nombres à la place des noms de colonnes. Mets au-dessus une ligne comme angle_deg,voltage_V,current_mA.',
      'no-power': () =>
        'Il n’y a ni puissance, ni tension et courant. Nomme les colonnes avec leur unité\u202f: voltage_V, current_mA, power_mW.',
      'no-factor': () => 'Il manque une colonne avec les niveaux, par exemple angle_deg.',
      'unit-missing': ({ column, wanted }) =>
        `La colonne ${column} n’est pas lue\u202f: appelle-la ${or(wanted)}.`,
      'field-count': ({ fields, columns }) =>
        `Il y a ${fields} champs, mais ${columns} colonnes. Corrige la ligne ou retire-la.`,
      'cell-empty': ({ column }) => `${column} est vide. Remplis-le ou retire la ligne.`,
      'level-unknown': ({ column, text, levels }) =>
        `«\u202f${text}\u202f» n’est pas un niveau de ${column} dans le plan, qui a ${quoted(levels)}.`,
      'too-long': ({ column, most }) => `${column} a plus de ${most} lettres. Raccourcis.`,
      'other-sign': ({ column, text, sign }) =>
        `${column}\u202f: «\u202f${text}\u202f» peut être deux nombres. ${
          sign === '.'
            ? 'Utilise le point décimal dans tout le tableau.'
            : 'D’autres nombres du tableau ont une virgule. Utilise un seul signe dans tout le tableau.'
        }`,
      'no-number': ({ column, text }) =>
        `${column}\u202f: «\u202f${text}\u202f» n’est pas un nombre. Corrige ou retire la ligne.`,
      'below-zero': ({ column }) => `${column} est inférieur à 0. Corrige ou retire la ligne.`,
      'not-possible': ({ column, text }) =>
        `${column}\u202f: ${text} n’est pas possible ici. Vérifie le nombre et l’unité de la première ligne.`,
      'value-missing': ({ quantity }) =>
        `Il manque ${quantity === 'voltage_V' ? 'la tension' : 'le courant'}. Complète ou retire la ligne.`,
      'power-disagrees': ({ stated, product }) =>
        `La puissance est ${withComma(stated)} W, mais tension fois courant donne ${withComma(product)} W. Vérifie les unités de la première ligne.`,
      simulated: () =>
        'Cette ligne est simulée\u202f: rien n’a été mesuré. Elle ne se mêle pas aux vraies mesures.',
      'neither-yes-nor-no': ({ column, text }) =>
        `${column}\u202f: «\u202f${text}\u202f» n’est ni oui ni non. Mets 1 pour une ligne barrée, sinon rien.`,
    },
  },
};
