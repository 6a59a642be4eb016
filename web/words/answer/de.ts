import type { AnswerWords, SentenceWords } from '../answer-words.ts';

export const deAnswer: AnswerWords = {
  best: (label, more, next) => `${label} gibt am meisten Leistung: ${more} ${next}, das nächstbeste.`,
  percentMore: (percent) => `etwa ${percent} % mehr als`,
  timesAsMuch: (times) => `etwa ${times}-mal so viel wie`,
  tied: (label, others) => `${label} liegt bisher vorn, lässt sich aber noch nicht von ${others} unterscheiden.`,
  others: (count) => `${count} anderen`,
  triedOnce: (label) => `${label} liegt bisher vorn. Jede Einstellung ist erst einmal erprobt.`,
  triedOnceSmall:
    'Wie viel sich ändert, wenn man neu einstellt, weiß noch niemand: macht jede Einstellung noch einmal.',
  sameOrder: 'Jede Runde hatte dieselbe Reihenfolge. Was sich langsam ändert (eine Lampe wird warm, der Ventilator langsamer), kann deshalb wie die Stufe aussehen: macht noch eine Runde in anderer Reihenfolge.',
  crept: ({ percent, isFall, isWithinRounds }) =>
    `Bei gleicher Einstellung ist die Leistung um ${percent} ${isFall ? 'gefallen' : 'gestiegen'}. Keine Messung wird dafür korrigiert: ${isWithinRounds ? 'Verglichen wird innerhalb der Runden' : 'Es kann wie eine Wirkung der Stufe aussehen'}.`,
  sameReadings: 'Alle Messungen einer Einstellung sind genau gleich: schreibt mehr Stellen auf.',
  nothingTurned: 'Die Flügel haben sich in keiner Messung gedreht.',
  didNotTurn: (labels) => `Bei ${labels} haben sich die Flügel nicht gedreht.`,
  notAlwaysTurned: (labels) => `Bei ${labels} haben sie sich nicht immer gedreht.`,
  mostBetween: (low, high) => `Am meisten gibt es zwischen ${low} und ${high}.`,
  mostAtEdge: (label) => `Am meisten gibt ${label}, am Rand des Erprobten, oder jenseits davon.`,
  load: {
    match: (resistance) => `Am meisten kommt bei ${resistance}: So viel haben wohl Rotor und Generator selbst.`,
    source: (emf, resistance) => `Die Spannung fällt mit dem Strom, als stünden ${emf} hinter ${resistance}. So eine Quelle gibt einer Last mit ebenso viel Ohm am meisten. Es sind Rotor und Generator zusammen: Ein Teil davon ist, dass der Rotor langsamer wird.`,
    windUnread: 'Den Wind hat niemand gemessen: Das gilt, wenn er jedes Mal gleich war.',
    none: {
      'too few loads': 'Die besten Ohm lassen sich nicht sagen: Es sind weniger als drei Lasten.',
      'not a line': 'Die besten Ohm lassen sich nicht sagen: Die Spannung fällt mit dem Strom nicht gerade ab.',
      'too vague': 'Die besten Ohm lassen sich nicht sagen: Die Messungen streuen zu sehr.',
      'wind differed': 'Die besten Ohm lassen sich nicht sagen: Der Wind war nicht bei allen Lasten gleich.',
    },
  },
  run: (levels) => `Als Nächstes: ${levels}.`,
  levelTimes: (label, times) => `${times}-mal ${label}`,
  itTakes: (trials) => `Insgesamt braucht es etwa ${trials} weitere Messungen.`,
  itTakesMany: (many) => `Insgesamt braucht es mehr als ${many} weitere Messungen.`,
  settled: 'Weitere Messungen sind nicht nötig.',
  tie: (labels) => `${labels} liegen für eine Schulstunde zu nah beieinander: sagt, sie sind gleichauf.`,
  doThese: 'Diese machen',
};

export const deSentence: SentenceWords = {
  nothingYet: 'Noch nichts gespeichert.',
  nothingYetSmall: 'Jeder ruhige Abschnitt wird von selbst eine Messung.',
  noneCounts: 'Noch zählt keine Messung.',
  whyNot: {
    struck: 'Die neueste ist gestrichen.',
    cutOff: 'Die neueste wurde zu früh abgebrochen.',
    noPower: 'Die neueste hat keine Leistung: dazu braucht es Spannung und Strom.',
  },
  one: (result) => `Bisher eine Messung: ${result}.`,
  oneSmall: 'Mach dasselbe noch einmal: Eine allein zeigt nicht, wie weit Wiederholungen auseinanderliegen.',
  allAt: (count, value) => `Bisher ${count} Messungen, alle bei ${value}.`,
  range: (count, low, high) => `Bisher ${count} Messungen, von ${low} bis ${high}.`,
  struck: (count) => `${count} gestrichen und nicht mitgezählt.`,
  noPlan: 'Welche Einstellung die beste ist, lässt sich ohne Plan und Wiederholungen nicht sagen.',
  noneOfPlan: 'Noch gehört keine Messung zu diesem Plan.',
  oneLevel: (label) => `Bisher ist nur ${label} erprobt.`,
  onlyTurned: (label) => `Bisher haben sich die Flügel nur bei ${label} gedreht.`,
  covered: 'Die Antwort ist verdeckt. Was erwartet ihr?',
};
