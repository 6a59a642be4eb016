/** Before « : ! ? ; » stands a narrow space that does not break, as French typography has it. */
import { frAnswer, frSentence } from './answer/fr.ts';
import { frBench } from './bench/fr.ts';
import { frBoard } from './board/fr.ts';
import { frBudget } from './budget/fr.ts';
import { frFit } from './fit/fr.ts';
import type { Catalogue } from './catalogue.ts';
import { frNetwork } from './network/fr.ts';
import { listedIn } from './lists.ts';
import { withComma } from './numbers.ts';
import { frTop } from './top/fr.ts';
import { frRig } from './rig/fr.ts';
import { frWind } from './wind/fr.ts';

const QUANTITY = {
  voltage_V: 'Tension',
  current_A: 'Courant',
  windSpeed_mps: 'Vent',
  power_W: 'Puissance',
};
/** As the subject of a sentence, at its beginning. */
const SUBJECT = {
  voltage_V: 'La tension',
  current_A: 'Le courant',
  windSpeed_mps: 'Le vent',
  power_W: 'La puissance',
};
const WATT = { µ: 'microwatt', m: 'milliwatt', '': 'watt', k: 'kilowatt' };

export const fr: Catalogue = {
  language: 'fr',
  name: 'Français',
  bench: frBench,
  network: frNetwork,
  board: frBoard,
  budget: frBudget,
  wind: frWind,
  fit: frFit,
  rig: frRig,
  number: withComma,
  quantity: QUANTITY,
  list: listedIn('fr'),
  top: frTop,
  instruction: {
    windOnly: ['Ça ne tourne', 'pas encore.'],
    connecting: ['Connexion', 'en cours.'],
    noNews: ['Pas de', 'nouvelles.'],
    noBoard: ['Branche', 'la carte.'],
    meters: ['Lis les deux', 'appareils.'],
    starting: ['La carte', 'démarre.'],
    unplugged: ['Carte', 'débranchée.'],
    silent: ['La carte', 'se tait.'],
    refused: {
      busy: ['La carte est', 'occupée.'],
      denied: ['Pas encore', 'permis.'],
      missing: ['La carte', 'a disparu.'],
      failed: ['La carte ne', 's’ouvre pas.'],
    },
    unreadable: ['Carte', 'illisible.'],
    unmapped: ['Quel nombre', 'est quoi\u202f?'],
    ended: ['C’est fini.'],
    waiting: ['Démarre le', 'ventilateur.'],
    spinningUp: ['Recule.', 'Ça accélère.'],
    runningDown: ['Attends. Ça', 'tourne encore.'],
    windDies: ['Attends. Le', 'vent souffle.'],
    moving: ['Pas touche.', 'Ça bouge.'],
    settling: ['Pas touche.', 'Presque calme.'],
    hold: ['Ne bouge', 'plus.'],
    still: ['Calme.'],
    logged: ['Calme.', 'Enregistré.'],
    didNotTurn: ['Enregistré.', 'Sans tourner.'],
    disturbed: ['Un choc\u202f!', 'Attends.'],
    unsettled: {
      cycle: ['Ça oscille', 'sans arrêt.'],
      gusts: ['Le vent a', 'des rafales.'],
      drift: ['Ça dérive', 'toujours.'],
    },
    stopFan: ['Arrête le', 'ventilateur.'],
    startFan: ['Recule et', 'démarre-le.'],
    finished: ['Tout est', 'mesuré.'],
    paused: ['Attends. Rien', 'n’est gardé.'],
    set: ({ kind, name, level: { label, value } }) => {
      switch (kind) {
        case 'angle':
          return ['Règle les', `pales à ${label}.`];
        case 'length':
          return ['Monte pales\u202f:', `${label}.`];
        case 'blades':
          return value === null ? ['Monte pales\u202f:', `${label}.`] : ['Monte', `${bladesOf(value)}.`];
        case 'fan':
          return ['Ventilateur\u202f:', `${label}.`];
        case 'load':
          return ['Règle la', `charge\u202f: ${label}.`];
        case 'own':
          return [`${name}\u202f:`, `${label}.`];
      }
    },
    setAll: (labels) => ['Règle\u202f:', `${labels.join(', ')}.`],
  },
  below: {
    connecting: {
      moving: 'On demande des mesures au programme de l’ordinateur.',
      detail: '',
      state: 'On appelle l’ordinateur',
    },
    noNews: (time) => ({
      moving: `Rien de l’ordinateur depuis ${time}. Nouvel essai.`,
      detail: 'L’ordinateur enregistre peut-être encore. Cette page reprend toute seule.',
      state: `Depuis ${time}. Nouvel essai.`,
    }),
    noBoard: {
      moving: 'Aucune carte trouvée pour l’instant.',
      detail: 'Elle est prise toute seule.',
      state: 'Aucune carte trouvée',
    },
    meters: {
      moving:
        'Attends que les deux soient stables, puis tape ce qu’ils affichent.',
      detail: 'C’est enregistré dès que c’est tapé.',
      state: 'Tape ce qu’ils affichent',
    },
    readMeters: {
      moving:
        'Ventilateur arrêté, pales immobiles\u202f? Alors règle. Démarre, recule, attends que les deux appareils soient stables.',
      detail: 'Ici, rien n’entend le montage\u202f: regarde d’abord, chaque fois.',
      state: 'Arrête avant de régler',
    },
    starting: {
      moving: 'On attend la première mesure.',
      detail: '',
      state: 'On attend une mesure',
    },
    unplugged: {
      moving: 'Branche le câble.',
      detail: 'Ce qui est enregistré est en sécurité. La carte est reprise toute seule.',
      state: 'Branche le câble',
    },
    silent: {
      moving: 'Aucune mesure n’arrive. Enfonce le câble, ou appuie sur le reset de la carte.',
      detail: 'Ce qui est enregistré est en sécurité.',
      state: 'Enfonce le câble',
    },
    refused: {
      moving: '',
      detail: 'On réessaie tout seul.',
      state: 'Regarde l’ordinateur',
    },
    unreadable: (firstLine) => ({
      moving: 'Du texte arrive, mais pas de mesure. La vitesse de la carte est-elle juste\u202f?',
      detail: `Sa première ligne doit nommer les colonnes, ainsi\u202f: ${firstLine}`,
      state: 'Regarde l’ordinateur',
    }),
    unmappedYet: {
      moving: 'La carte ne l’a pas encore dit. Elle le dit toutes les 10\u202fs.',
      detail: '',
      state: 'La carte va le dire',
    },
    unmapped: (firstLine) => ({
      moving: 'Des nombres arrivent, mais sans nom. Nomme-les ci-dessous.',
      detail: `Ou fais d’abord envoyer à la carte une ligne comme\u202f: ${firstLine}`,
      state: 'Regarde l’ordinateur',
    }),
    ended: {
      moving: 'L’enregistrement est arrivé à sa fin.',
      detail: '',
      state: 'La lecture est finie',
    },
    spinningUp: 'Éloigne mains, cheveux et manches.',
    still: (time) => ({
      moving: `Mesure en cours\u202f: ${time}.`,
      detail: '',
      state: `Mesure\u202f: ${time}`,
    }),
    notSaved: {
      moving: 'Pas enregistré\u202f: impossible pour l’instant.',
      detail: 'C’est enregistré dès que c’est de nouveau possible.',
      state: 'Pas encore enregistré',
    },
    logged: {
      moving: 'Arrête le ventilateur. Attends que les pales s’arrêtent.',
      detail: '',
      state: 'Arrête le ventilateur',
    },
    disturbed: 'Rien n’est perdu. C’est enregistré quand c’est calme.',
    unsettled: {
      cycle: {
        moving: 'La puissance monte et descend\u202f; attendre n’y fera rien.',
        detail:
          'Une pale glisse, l’axe frotte\u202f? Ou tourne un peu les pales, ou déplace le ventilateur. D’abord ventilateur arrêté et pales immobiles.',
        state: 'Attendre n’aide pas',
      },
      gusts: {
        moving: 'Attendre ne le calmera pas.',
        detail: 'Ferme portes et fenêtres, sors du courant d’air, ou déplace le ventilateur.',
        state: 'Ferme les portes',
      },
      drift: {
        moving: 'Après une demi-minute, la puissance va toujours dans le même sens.',
        detail:
          'Laisse chauffer le ventilateur et la lampe, et regarde si une pale glisse. D’abord ventilateur arrêté et pales immobiles.',
        state: 'Laisse chauffer',
      },
    },
    stopFan: {
      moving: 'Ne touche encore à rien.',
      detail: 'Laisse les pales s’arrêter toutes seules.',
      state: 'Ne touche encore à rien',
    },
    bladesTurn: {
      moving: 'Ne touche à rien avant leur arrêt.',
      detail: 'Laisse les pales s’arrêter toutes seules.',
      state: 'Ne touche encore à rien',
    },
    windDies: {
      moving: 'Ne touche à rien avant l’arrêt du ventilateur.',
      detail: 'Laisse le ventilateur s’arrêter tout seul.',
      state: 'Ne touche encore à rien',
    },
    setBlades: {
      moving: 'Regarde d’abord\u202f: rien ne doit tourner. Ventilateur arrêté\u202f? Alors règle et recule.',
      detail: 'Pales bien fixées\u202f? Mains, cheveux et manches loin\u202f?',
      state: 'Regarde\u202f: rien ne tourne\u202f?',
    },
    setBladesUnheard: {
      moving:
        'Regarde d’abord\u202f: le ventilateur est arrêté, rien ne tourne\u202f? Alors règle et recule.',
      detail: 'Ici, rien n’entend le ventilateur. Appuie sur la touche quand c’est réglé.',
      state: 'Arrêté\u202f? Rien ne tourne\u202f?',
    },
    startFan: {
      moving: 'Mains, cheveux et manches loin. Puis démarre le ventilateur.',
      detail: 'Chaque moment calme est enregistré tout seul.',
      state: 'Mains et cheveux loin\u202f?',
    },
    finished: {
      moving: 'Chaque essai du plan a sa mesure.',
      detail: 'Encore une fois\u202f? Ajoute un essai, ou fais un nouveau plan.',
      state: 'Le plan est complet',
    },
    paused: {
      moving: 'Rien n’est enregistré avant que tu continues.',
      detail: 'Les valeurs sont toujours gardées.',
      state: 'En pause sur l’ordinateur',
    },
    nothingTurns: 'Rien ne tourne encore.',
    windWithoutTurn: {
      moving: 'Il y a du vent, mais rien ne tourne encore.',
      detail: 'N’y touche pas. Si ça reste ainsi, c’est aussi un résultat, enregistré tout seul.',
      state: 'N’y touche pas',
    },
    noWind: 'Pas encore de vent.',
    eachIsLogged: 'Chaque moment calme est enregistré tout seul.',
    logsItself: 'C’est enregistré tout seul.',
    logsUsually: (time) =>
      `C’est enregistré tout seul, d’habitude ${time} après le démarrage.`,
    allJoined: 'Tous les fils sont réunis.',
    left: (time) => `Encore ${time}.`,
    loose: (loose, all) =>
      loose === all ? `Les ${all} fils sont libres.` : `${loose} fils libres sur ${all}.`,
    looseShort: (loose) => (loose === 1 ? '1 fil libre' : `${loose} fils libres`),
    saved: (trial, time) => `Mesure ${trial} enregistrée à ${time}.`,
    savedStill: (trial, time) => `Mesure ${trial}\u202f: ça n’a pas tourné. Enregistrée à ${time}.`,
    savedAs: (trial, result, time) => `Mesure ${trial}, ${result}, enregistrée à ${time}.`,
  },
  motion: {
    still: 'calme',
    upAndDown: 'monte et descend',
    rising: 'monte',
    falling: 'descend',
    change: (amount, time) => `${amount} en ${time}`,
    goesUpAndDown: (quantity) => `${SUBJECT[quantity]} monte et descend.`,
    stillRises: (quantity, change) => `${SUBJECT[quantity]} monte encore\u202f: ${change}.`,
    stillFalls: (quantity, change) => `${SUBJECT[quantity]} descend encore\u202f: ${change}.`,
    noReading: 'pas de valeur',
  },
  plan: {
    setting: ({ kind, name, level: { label, value } }) => {
      switch (kind) {
        case 'angle':
          return `Pales à ${label}`;
        case 'length':
          return `Pales\u202f: ${label}`;
        case 'blades':
          return value === null ? `Pales\u202f: ${label}` : bladesOf(value);
        case 'fan':
          return `Ventilateur\u202f: ${label}`;
        case 'load':
          return `Charge\u202f: ${label}`;
        case 'own':
          return `${name}\u202f: ${label}`;
      }
    },
    trial: (id) => `Mesure ${id}`,
    countOf: (count, all) => `${count} sur ${all}`,
    runOf: (run, all) => `Essai ${run} sur ${all}`,
    round: (round) => `Tour ${round}`,
    group: (group) => `Groupe ${group}`,
    now: 'là',
    next: 'ensuite',
    nextIs: (label) => `Ensuite\u202f: ${label}`,
    done: 'fait',
    toCome: 'à faire',
    skipped: 'sauté',
    again: 'encore',
    reference: 'référence',
    powerAt: (factor) => `Puissance selon ${factor.toLowerCase()}`,
    atLeast: 'au moins',
  },
  question: {
    asked: {
      'is-fan-on': ['Ventilateur', 'en marche\u202f?'],
      unsettled: ['Ça ne se', 'calme pas.'],
      unassigned: ['C’est quel', 'essai\u202f?'],
    },
    isFanOn: 'Rien ne tourne. Le ventilateur est-il en marche\u202f?',
    unsettled: 'Ça ne se calme pas. Prendre la moyenne, sauter cet essai ou attendre\u202f?',
    unassigned: (trial) =>
      `La mesure ${trial} est calme, mais aucun essai ne l’a demandée. C’est quel essai\u202f?`,
    onLaptop: 'Réponds sur l’ordinateur',
    above: 'Réponds plus haut',
    yesItRuns: 'Oui, il tourne',
    noItIsOff: 'Non, il est arrêté',
    average: 'Prends la moyenne',
    skip: 'Saute cet essai',
    wait: 'Attends encore',
    leaveIt: 'Laisse-la sans essai',
    giveTo: (label) => `C’était ${label}`,
  },
  doubt: {
    'far-from-others': (trial, percent) =>
      `La mesure ${trial} s’écarte de ${percent} de ses répétitions. Le réglage était-il juste\u202f?`,
    'wind-drift': (trial, percent) =>
      `Pendant la mesure ${trial}, le vent a changé de ${percent}. Le ventilateur a-t-il bougé\u202f?`,
    'power-drift': (trial, percent, isLess) =>
      `Jusqu’à la mesure ${trial}, la puissance aux mêmes réglages a ${isLess ? 'baissé' : 'monté'} de ${percent}. Quelque chose est différent.`,
  },
  answer: frAnswer,
  sentence: frSentence,
  page: {
    simulated: 'SIMULÉ · SANS CARTE · ',
    simulatedSpoken: 'Simulé. Sans carte.',
    replay: 'RELECTURE · RIEN N’EST ENREGISTRÉ',
    replaySimulated: 'RELECTURE · SIMULÉ · RIEN N’EST ENREGISTRÉ',
    replaySpoken: 'Relecture d’une séance antérieure. Rien n’est enregistré.',
    replaySimulatedSpoken: 'Relecture d’une séance simulée. Rien n’est enregistré.',
    watchingOnly: 'Pour regarder seulement.',
    lastLogged: 'dernière mesure',
    soFar: 'pour l’instant',
    power: (value) => `Puissance ${value}`,
    powerUnknown: 'Puissance inconnue',
    language: 'Langue',
    sectionNow: 'Maintenant',
    sectionPlot: 'Puissance de chaque mesure',
    sectionSaid: 'Ce qu’on peut dire pour l’instant',
    coveredPlot: 'Caché',
    storeStopped: 'Impossible d’enregistrer.',
    noFit: (problem) =>
      `La page et le programme ne vont pas ensemble (${problem}). Recharge la page.`,
    runsDone: (count, all) => `${count} essais faits sur ${all}.`,
    markAt: (label, results) => `${label}\u202f: ${results}`,
  },
  voice: {
    unit: { '°': 'degrés', mm: 'millimètres', cm: 'centimètres', m: 'mètres', Ω: 'ohms', V: 'volts' },
    power: (value, prefix) => `${value} ${WATT[prefix]}${belowTwo(value) ? '' : 's'}`,
    logged: (power) => `Calme. ${power}. Arrête le ventilateur.`,
    loggedByHand: (power) => `Enregistré. ${power}. Arrête le ventilateur.`,
    didNotTurn: 'Enregistré. Ça n’a pas tourné. Arrête le ventilateur.',
    disturbed: 'Un choc. Attends encore.',
    unplugged: 'Carte débranchée. Branche le câble.',
    finished: 'Tout est mesuré.',
    notSaved: 'Impossible d’enregistrer. Regarde l’ordinateur.',
    touchToHear: 'Le son est activé. Clique une fois pour l’entendre.',
    noVoice: 'Cet appareil n’a pas de voix. Les mots restent sur la page.',
    otherVoice: (name) => `Pas de voix française ici\u202f: ${name} lit.`,
    on: 'Voix activée',
    off: 'Voix coupée',
  },
};

function bladesOf(count: number): string {
  return count === 1 ? '1 pale' : `${count} pales`;
}

/** French has the plural from two on. */
function belowTwo(written: string): boolean {
  return Math.abs(Number(written.replace(',', '.').replace('−', '-'))) < 2;
}
