import { deAnswer, deSentence } from './answer/de.ts';
import { deBench } from './bench/de.ts';
import { deBoard } from './board/de.ts';
import { deBudget } from './budget/de.ts';
import { deFit } from './fit/de.ts';
import type { Catalogue } from './catalogue.ts';
import { deNetwork } from './network/de.ts';
import { listedIn } from './lists.ts';
import { withComma } from './numbers.ts';
import { deTop } from './top/de.ts';
import { deRig } from './rig/de.ts';
import { deWind } from './wind/de.ts';

const QUANTITY = {
  voltage_V: 'Spannung',
  current_A: 'Strom',
  windSpeed_mps: 'Wind',
  power_W: 'Leistung',
};
/** As the subject of a sentence, at its beginning. */
const SUBJECT = {
  voltage_V: 'Die Spannung',
  current_A: 'Der Strom',
  windSpeed_mps: 'Der Wind',
  power_W: 'Die Leistung',
};
const WATT = { µ: 'Mikrowatt', m: 'Milliwatt', '': 'Watt', k: 'Kilowatt' };

export const de: Catalogue = {
  language: 'de',
  name: 'Deutsch',
  bench: deBench,
  network: deNetwork,
  board: deBoard,
  budget: deBudget,
  wind: deWind,
  fit: deFit,
  rig: deRig,
  number: withComma,
  quantity: QUANTITY,
  list: listedIn('de'),
  top: deTop,
  instruction: {
    windOnly: ['Noch dreht', 'sich nichts.'],
    connecting: ['Verbindung', 'wird gesucht.'],
    noNews: ['Keine', 'Nachricht.'],
    noBoard: ['Steck die', 'Platine an.'],
    meters: ['Messgeräte', 'ablesen.'],
    starting: ['Die Platine', 'startet.'],
    unplugged: ['Platine', 'abgezogen.'],
    silent: ['Die Platine', 'schweigt.'],
    refused: {
      busy: ['Die Platine', 'ist belegt.'],
      denied: ['Noch nicht', 'erlaubt.'],
      missing: ['Die Platine', 'ist weg.'],
      failed: ['Kein Zugang', 'zur Platine.'],
    },
    unreadable: ['Platine', 'nicht lesbar.'],
    unmapped: ['Welche Zahl', 'ist was?'],
    ended: ['Ende.'],
    waiting: ['Starte den', 'Ventilator.'],
    spinningUp: ['Tritt zurück.', 'Es läuft an.'],
    runningDown: ['Warte. Flügel', 'drehen noch.'],
    windDies: ['Warte. Wind', 'weht noch.'],
    moving: ['Hände weg.', 'Noch unruhig.'],
    settling: ['Hände weg.', 'Fast ruhig.'],
    hold: ['Halt still.'],
    still: ['Ruhig.'],
    logged: ['Ruhig.', 'Gespeichert.'],
    didNotTurn: ['Gespeichert:', 'keine Drehung.'],
    disturbed: ['Angestoßen!', 'Warte erneut.'],
    unsettled: {
      cycle: ['Es pendelt', 'ständig.'],
      gusts: ['Der Wind ist', 'zu böig.'],
      drift: ['Es kriecht', 'immer weiter.'],
    },
    stopFan: ['Stopp den', 'Ventilator.'],
    startFan: ['Tritt zurück.', 'Ventilator an.'],
    finished: ['Alles ist', 'gemessen.'],
    paused: ['Pause. Nichts', 'gespeichert.'],
    set: ({ kind, name, level: { label, value } }) => {
      switch (kind) {
        case 'angle':
          return ['Stell Flügel', `auf ${label}.`];
        case 'length':
          return ['Nimm Flügel:', `${label}.`];
        case 'blades':
          return ['Montiere', value === null ? `${label}.` : `${value} Flügel.`];
        case 'fan':
          return ['Ventilator:', `${label}.`];
        case 'load':
          return ['Stell Last', `auf ${label}.`];
        case 'own':
          return [`${name}:`, `${label}.`];
      }
    },
    setAll: (labels) => ['Stell ein:', `${labels.join(', ')}.`],
  },
  below: {
    connecting: {
      moving: 'Das Programm auf dem Laptop wird nach Messwerten gefragt.',
      detail: '',
      state: 'Der Laptop wird gefragt',
    },
    noNews: (time) => ({
      moving: `Seit ${time} nichts vom Laptop. Neuer Versuch läuft.`,
      detail: 'Vielleicht speichert der Laptop weiter. Diese Seite macht von selbst weiter.',
      state: `Seit ${time}. Neuer Versuch.`,
    }),
    noBoard: {
      moving: 'Noch keine Platine gefunden.',
      detail: 'Sie wird von selbst erkannt.',
      state: 'Noch keine gefunden',
    },
    meters: {
      moving:
        'Warte, bis beide stillstehen, dann tippe ein, was sie zeigen.',
      detail: 'Gespeichert ist es, sobald es eingetippt ist.',
      state: 'Eintippen, was sie zeigen',
    },
    readMeters: {
      moving:
        'Ventilator aus, Flügel in Ruhe? Dann stell ein. Ventilator an, zurücktreten, warten, bis beide Messgeräte stillstehen.',
      detail: 'Nichts hier kann den Aufbau hören: Schau jedes Mal zuerst.',
      state: 'Erst aus, dann einstellen',
    },
    starting: {
      moving: 'Warten auf den ersten Messwert.',
      detail: '',
      state: 'Warten auf einen Wert',
    },
    unplugged: {
      moving: 'Steck das Kabel ein.',
      detail: 'Was gespeichert ist, bleibt. Die Platine wird von selbst wieder erkannt.',
      state: 'Steck das Kabel ein',
    },
    silent: {
      moving: 'Es kommt kein Messwert. Steck das Kabel fest ein oder drück Reset auf der Platine.',
      detail: 'Was gespeichert ist, bleibt.',
      state: 'Steck das Kabel ein',
    },
    refused: {
      moving: '',
      detail: 'Es wird von selbst wieder versucht.',
      state: 'Schau auf den Laptop',
    },
    unreadable: (firstLine) => ({
      moving: 'Es kommt Text, aber kein Messwert. Stimmt die Geschwindigkeit der Platine?',
      detail: `Die erste Zeile sollte die Spalten nennen, etwa so: ${firstLine}`,
      state: 'Schau auf den Laptop',
    }),
    unmappedYet: {
      moving: 'Die Platine hat es noch nicht gesagt. Das tut sie alle 10\u202fs.',
      detail: '',
      state: 'Die Platine sagt es noch',
    },
    unmapped: (firstLine) => ({
      moving: 'Es kommen Zahlen, aber ohne Namen. Benenne sie unten.',
      detail: `Oder lass die Platine zuerst so eine Zeile senden: ${firstLine}`,
      state: 'Schau auf den Laptop',
    }),
    ended: {
      moving: 'Die Aufnahme ist bis zum Ende abgespielt.',
      detail: '',
      state: 'Die Aufnahme ist zu Ende',
    },
    spinningUp: 'Halte Hände, Haare und Ärmel fern.',
    still: (time) => ({
      moving: `Es wird aufgenommen: bisher ${time}.`,
      detail: '',
      state: `Aufnahme: ${time}`,
    }),
    notSaved: {
      moving: 'Nicht gespeichert: Das Speichern geht gerade nicht.',
      detail: 'Es wird gespeichert, sobald es wieder geht.',
      state: 'Noch nicht gespeichert',
    },
    logged: {
      moving: 'Stopp jetzt den Ventilator. Warte, bis die Flügel stehen.',
      detail: '',
      state: 'Stopp den Ventilator',
    },
    disturbed: 'Nichts ist verloren. Gespeichert wird, wenn es ruhig ist.',
    unsettled: {
      cycle: {
        moving: 'Die Leistung schwankt auf und ab; Warten hilft nicht.',
        detail:
          'Rutscht ein Flügel, reibt die Welle? Oder dreh die Flügel ein wenig, oder versetz den Ventilator. Vorher Ventilator aus, und die Flügel müssen stehen.',
        state: 'Warten hilft nicht',
      },
      gusts: {
        moving: 'Warten beruhigt ihn nicht.',
        detail:
          'Mach Türen und Fenster zu, geht aus dem Luftstrom, oder versetz den Ventilator.',
        state: 'Türen zu, Weg frei',
      },
      drift: {
        moving: 'Die Leistung läuft nach einer halben Minute immer noch in eine Richtung.',
        detail:
          'Lass Ventilator und Lampe warm werden und prüf, ob ein Flügel rutscht. Vorher Ventilator aus, und die Flügel müssen stehen.',
        state: 'Lass alles warm werden',
      },
    },
    stopFan: {
      moving: 'Fass noch nichts an.',
      detail: 'Lass die Flügel von selbst stehen bleiben.',
      state: 'Fass noch nichts an',
    },
    bladesTurn: {
      moving: 'Fass nichts an, bis sie stehen.',
      detail: 'Lass die Flügel von selbst stehen bleiben.',
      state: 'Fass noch nichts an',
    },
    windDies: {
      moving: 'Fass nichts an, bis der Ventilator steht.',
      detail: 'Lass den Ventilator von selbst stehen bleiben.',
      state: 'Fass noch nichts an',
    },
    setBlades: {
      moving: 'Schau zuerst: Nichts darf sich drehen. Ventilator aus? Dann stell ein und tritt zurück.',
      detail: 'Sitzen die Flügel fest? Sind Hände, Haare und Ärmel weg?',
      state: 'Schau: Steht alles?',
    },
    setBladesUnheard: {
      moving:
        'Schau zuerst: Ist der Ventilator aus, und dreht sich nichts? Dann stell ein und tritt zurück.',
      detail: 'Den Ventilator kann hier nichts hören. Drück die Taste, wenn es eingestellt ist.',
      state: 'Schau: Aus? Steht alles?',
    },
    startFan: {
      moving: 'Hände, Haare und Ärmel weg. Dann starte den Ventilator.',
      detail: 'Jeder ruhige Abschnitt wird von selbst gespeichert.',
      state: 'Hände und Haare weg?',
    },
    finished: {
      moving: 'Jeder Durchgang des Plans hat seine Messung.',
      detail: 'Noch einmal hinsehen? Füg einen Durchgang an, oder mach einen neuen Plan.',
      state: 'Der Plan ist geschafft',
    },
    paused: {
      moving: 'Nichts wird gespeichert, bis du weitermachst.',
      detail: 'Die Messwerte werden weiter aufgenommen.',
      state: 'Am Laptop angehalten',
    },
    nothingTurns: 'Noch dreht sich nichts.',
    windWithoutTurn: {
      moving: 'Es weht, aber noch dreht sich nichts.',
      detail: 'Hände weg. Bleibt es so, wird auch das als Ergebnis gespeichert.',
      state: 'Hände weg',
    },
    noWind: 'Noch kein Wind.',
    eachIsLogged: 'Jeder ruhige Abschnitt wird von selbst gespeichert.',
    logsItself: 'Es speichert von selbst.',
    logsUsually: (time) => `Es speichert von selbst, meist ${time} nach dem Start.`,
    allJoined: 'Alle Fäden liegen beisammen.',
    left: (time) => `Noch ${time}.`,
    loose: (loose, all) =>
      loose === all ? `Alle ${all} Fäden lose.` : `${loose} von ${all} Fäden lose.`,
    looseShort: (loose) => (loose === 1 ? '1 Faden lose' : `${loose} Fäden lose`),
    saved: (trial, time) => `Messung ${trial} ist seit ${time} gespeichert.`,
    savedStill: (trial, time) => `Messung ${trial}: Es hat sich nicht gedreht. Gespeichert um ${time}.`,
    savedAs: (trial, result, time) => `Messung ${trial}, ${result}, ist seit ${time} gespeichert.`,
  },
  motion: {
    still: 'ruhig',
    upAndDown: 'auf und ab',
    rising: 'steigt',
    falling: 'fällt',
    change: (amount, time) => `${amount} in ${time}`,
    goesUpAndDown: (quantity) => `${SUBJECT[quantity]} geht auf und ab.`,
    stillRises: (quantity, change) => `${SUBJECT[quantity]} steigt noch: ${change}.`,
    stillFalls: (quantity, change) => `${SUBJECT[quantity]} fällt noch: ${change}.`,
    noReading: 'kein Wert',
  },
  plan: {
    setting: ({ kind, name, level: { label, value } }) => {
      switch (kind) {
        case 'angle':
          return `Flügel auf ${label}`;
        case 'length':
          return `Flügel: ${label}`;
        case 'blades':
          return value === null ? `Flügel: ${label}` : `${value} Flügel`;
        case 'fan':
          return `Ventilator: ${label}`;
        case 'load':
          return `Last: ${label}`;
        case 'own':
          return `${name}: ${label}`;
      }
    },
    trial: (id) => `Messung ${id}`,
    countOf: (count, all) => `${count} von ${all}`,
    runOf: (run, all) => `Durchgang ${run} von ${all}`,
    round: (round) => `Runde ${round}`,
    group: (group) => `Gruppe ${group}`,
    now: 'jetzt',
    next: 'gleich',
    nextIs: (label) => `Danach: ${label}`,
    done: 'fertig',
    toCome: 'kommt noch',
    skipped: 'ausgelassen',
    again: 'noch einmal',
    reference: 'Vergleich',
    powerAt: (factor) => `Leistung je ${factor}`,
    atLeast: 'mindestens',
  },
  question: {
    asked: {
      'is-fan-on': ['Läuft der', 'Ventilator?'],
      unsettled: ['Es wird', 'nicht ruhig.'],
      unassigned: ['Wozu gehört', 'das?'],
    },
    isFanOn: 'Nichts dreht sich. Läuft der Ventilator?',
    unsettled: 'Es wird nicht ruhig. Mittelwert nehmen, diesen Durchgang auslassen oder warten?',
    unassigned: (trial) =>
      `Messung ${trial} ist ruhig, aber kein Durchgang hat sie verlangt. Zu welchem gehört sie?`,
    onLaptop: 'Antworte am Laptop',
    above: 'Antworte oben',
    yesItRuns: 'Ja, er läuft',
    noItIsOff: 'Nein, er ist aus',
    average: 'Nimm den Mittelwert',
    skip: 'Lass diesen Durchgang aus',
    wait: 'Warte weiter',
    leaveIt: 'Lass sie ohne Durchgang',
    giveTo: (label) => `Es war ${label}`,
  },
  doubt: {
    'far-from-others': (trial, percent) =>
      `Messung ${trial} liegt ${percent} neben ihren Wiederholungen. War die Einstellung richtig?`,
    'wind-drift': (trial, percent) =>
      `Bei Messung ${trial} war der Wind um ${percent} anders. Wurde der Ventilator bewegt?`,
    'power-drift': (trial, percent, isLess) =>
      `Bis Messung ${trial} ist die Leistung bei gleichen Einstellungen um ${percent} ${isLess ? 'gefallen' : 'gestiegen'}. Etwas hat sich geändert.`,
  },
  answer: deAnswer,
  sentence: deSentence,
  page: {
    simulated: 'SIMULIERT · KEINE PLATINE · ',
    simulatedSpoken: 'Simuliert. Keine Platine.',
    replay: 'WIEDERGABE · NICHTS WIRD AUFGEZEICHNET',
    replaySimulated: 'WIEDERGABE · SIMULIERT · NICHTS WIRD AUFGEZEICHNET',
    replaySpoken: 'Wiedergabe einer früheren Sitzung. Nichts wird aufgezeichnet.',
    replaySimulatedSpoken: 'Wiedergabe einer simulierten Sitzung. Nichts wird aufgezeichnet.',
    watchingOnly: 'Nur zum Zuschauen.',
    lastLogged: 'zuletzt gespeichert',
    soFar: 'bisher',
    power: (value) => `Leistung ${value}`,
    powerUnknown: 'Leistung unbekannt',
    language: 'Sprache',
    sectionNow: 'Jetzt',
    sectionPlot: 'Leistung jeder Messung',
    sectionSaid: 'Was sich bisher sagen lässt',
    coveredPlot: 'Verdeckt',
    storeStopped: 'Das Speichern geht nicht.',
    noFit: (problem) => `Seite und Programm passen nicht zusammen (${problem}). Lade die Seite neu.`,
    runsDone: (count, all) => `${count} von ${all} Durchgängen fertig.`,
    markAt: (label, results) => `${label}: ${results}`,
  },
  voice: {
    unit: { '°': 'Grad', mm: 'Millimeter', cm: 'Zentimeter', m: 'Meter', Ω: 'Ohm', V: 'Volt' },
    power: (value, prefix) => `${value} ${WATT[prefix]}`,
    logged: (power) => `Ruhig. ${power}. Stopp den Ventilator.`,
    loggedByHand: (power) => `Gespeichert. ${power}. Stopp den Ventilator.`,
    didNotTurn: 'Gespeichert. Es hat sich nicht gedreht. Stopp den Ventilator.',
    disturbed: 'Angestoßen. Warte noch einmal.',
    unplugged: 'Platine abgezogen. Steck das Kabel ein.',
    finished: 'Alles ist gemessen.',
    notSaved: 'Das Speichern geht nicht. Schau auf den Laptop.',
    touchToHear: 'Der Ton ist an. Klick einmal, dann hörst du ihn.',
    noVoice: 'Dieses Gerät hat keine Stimme. Die Worte stehen auf der Seite.',
    otherVoice: (name) => `Keine deutsche Stimme hier: ${name} liest.`,
    on: 'Stimme an',
    off: 'Stimme aus',
  },
};
