import type { WhyWords } from '../why-words.ts';

export const deWhy: WhyWords = {
  title: 'Warum',
  toBench: 'Messplatz',
  waiting: 'Wartet auf das Programm.',
  working: 'Wird ausgerechnet.',
  failed: {
    what: 'Die Gründe ließen sich nicht ausrechnen.',
    how: {
      'not-loaded':
        'Der Teil dieser Seite, der sie ausrechnet, wurde nicht geladen. Sieh nach, ob das Programm noch läuft und dieses Gerät es erreicht, und versuch es noch einmal.',
      stumbled:
        'Der Teil dieser Seite, der sie ausrechnet, ist abgebrochen. Such bei „Rotor und Luft“ und im Plan nach einer Zahl, die nicht stimmen kann, und versuch es noch einmal. Bleibt es so, speichere die Sitzung als Datei und gib sie mit der Zeile darunter dem, der sich um das Programm kümmert.',
    },
    kept: 'Nichts Gemessenes ist davon berührt: Messungen, Antwort und Bericht sind, wie sie waren.',
    again: 'Noch einmal versuchen',
  },
  none: {
    'no plan': 'Es gibt noch keinen Plan, also wird noch nichts verglichen.',
    'rotor not described':
      'Das Modell kennt den Rotor noch nicht. Drück am Messplatz auf die Leistung einer Messung, dann auf „Rotor und Luft“, und sag, wie groß er ist.',
    'factor of your own': 'Der Plan ändert etwas, von dem das Modell nichts weiß.',
    'levels without numbers': 'Die Stufen des Plans sind Namen ohne Zahlen, und das Modell braucht Zahlen.',
    'no wind reading': 'Geändert wird der Ventilator, und der Wind wurde nicht bei jeder Stufe gemessen.',
    'no such rotor':
      'Einen Rotor mit diesen Maßen gibt es nicht, oder eine Stufe kann es an keinem Aufbau geben. Prüf den Plan und „Rotor und Luft“.',
  },
  section: {
    plot: 'Gemessen und erwartet',
    causes: 'Wo beides auseinanderliegt',
    words: 'In einfachen Worten',
    flow: 'Wohin die Leistung geht',
    limits: 'Was das Modell nicht weiß',
  },
  model: 'Modell',
  measured: 'gemessen',
  caption:
    'Kräftig: was gemessen wurde, ein Ring für das Mittel auf seinen 95-%-Grenzen. Dünn: was ein Modell dieses Aufbaus erwartet, ein Kasten für 95\u202f% dessen, was sein kann, ein Strich für das Wahrscheinlichste.',
  notTried: 'nicht probiert',
  didNotTurn: 'drehte sich nicht',
  far: {
    less: (levels) => `Weniger, als das Modell erwartet: ${levels}.`,
    more: (levels) => `Mehr, als das Modell erwartet: ${levels}.`,
  },
  isFar: { less: 'weniger', more: 'mehr' },
  allNear: 'Alle Stufen liegen dort, wo das Modell sie erwartet.',
  tips: (level, measured, model) =>
    `Bei ${level} liefen die Flügelspitzen ${measured}-mal so schnell wie der Wind; das Modell erwartet ${model}.`,
  nothingMeasured: 'Noch ist nichts gemessen: Das ist das Modell allein.',
  lookFirst: 'Es würde passen mit einem davon. Schau zuerst nach dem ersten:',
  noCause: 'Keine einzelne Änderung an dem, was vom Aufbau gesagt wurde, erklärt es.',
  guess: 'Das sind Vermutungen, keine Ergebnisse.',
  cause: {
    friction: (change) => `Reibung ${change}-mal so groß`,
    load: (change) => `eine Last mit ${change}-mal so viel Ohm`,
    'wind speed': (change) => `Wind ${change}-mal so schnell`,
    'generator constant': (change) => `ein Generator, der ${change}-mal so viel Volt gibt`,
    'winding resistance': (change) => `eine Wicklung mit ${change}-mal so viel Ohm`,
    'jet narrower than the rotor': (change) => `ein Windstrahl, nur ${change}-mal so breit wie der Rotor`,
    'wind in km/h': () => 'Wind in km/h abgelesen und als m/s notiert',
    'wind in mph': () => 'Wind in Meilen pro Stunde abgelesen und als m/s notiert',
    'diameter for radius': () => 'die ganze Breite des Rotors als Radius notiert',
    'angle from the axis': () => 'Winkel von der Achse aus gemessen statt von der Rotorebene',
    'power in mW': () => 'Leistung in mW notiert, aber als W genommen',
  },
  blades: {
    flatter: (degrees) => `Flügel ${degrees}° flacher als gesagt`,
    steeper: (degrees) => `Flügel ${degrees}° steiler als gesagt`,
  },
  agree: (level) => `${level} brachte am meisten, und dort erwartet es auch das Modell.`,
  agreeSoFar: (level, others) =>
    `${level} brachte bisher am meisten, und dort erwartet es auch das Modell. Von ${others} lässt es sich noch nicht unterscheiden.`,
  sure: (level, guesses) =>
    `Bei ${guesses} von 100 Annahmen über das, was nicht sicher bekannt ist, liegt ${level} vorn.`,
  soInGuesses: (guesses) => `So ist es bei ${guesses} von 100 Annahmen.`,
  perhaps: (measured, model) =>
    `${measured} brachte am meisten. Das Modell erwartet es bei ${model}, aber die beiden liegen zu nah beisammen, um das zu sagen.`,
  disagree: (measured, model) =>
    `${measured} brachte am meisten, aber das Modell erwartet es bei ${model}. Die Gründe des Modells gelten hier also vielleicht nicht.`,
  bestFar: (level) =>
    `Was ${level} brachte, liegt außerhalb dessen, was das Modell erwartet. Seine Gründe gelten hier also vielleicht nicht.`,
  nothingStarts: 'Bei keiner dieser Stufen erwartet das Modell, dass der Rotor von selbst anläuft.',
  expects: (level) => `Das Modell erwartet am meisten bei ${level}.`,
  compared: {
    'faster-harder': ({ best, other, speed }) =>
      `Bei ${best} dreht der Rotor ${speed}-mal so schnell wie bei ${other}, und der Wind treibt ihn nicht schwächer an.`,
    'faster-softer': ({ best, other, speed, torque }) =>
      `Bei ${best} dreht der Rotor ${speed}-mal so schnell wie bei ${other}. Der Wind treibt ihn nur ${torque}-mal so stark an, aber das Tempo gleicht das aus.`,
    'slower-harder': ({ best, other, speed, torque }) =>
      `Bei ${best} dreht der Rotor nur ${speed}-mal so schnell wie bei ${other}, aber der Wind treibt ihn ${torque}-mal so stark an.`,
  },
  glide: ({ best, other, bestGlide, otherGlide }) =>
    `Bei ${best} ist der Auftrieb am Flügel ${bestGlide}-mal so groß wie sein Widerstand, bei ${other} nur ${otherGlide}-mal. Auftrieb zieht den Flügel herum, Widerstand hält ihn zurück.`,
  along: (best, other) =>
    `Bei ${best} wie bei ${other} gleitet die Luft fast am Flügel entlang. Flache Flügel müssen dafür schneller laufen, so wie eine feine Schraube mehr Umdrehungen braucht als eine grobe.`,
  standing: ({ best, other, torque }) =>
    `Stehende Flügel treibt der Wind bei ${other} ${torque}-mal so stark an wie bei ${best}: Dort läuft der Rotor leichter an, dreht dann aber langsamer.`,
  notLongest: ({ best, longest, now, then }) =>
    `Länger ist nicht immer besser: Bei ${best} erwartet das Modell ${now}, bei ${longest} nur ${then}.`,
  beyondJetAt: (levels) =>
    `Aus dem Wind des Ventilators hinaus reichen: ${levels}. Dort schlagen die Flügel nur ruhende Luft.`,
  starts: {
    yes: (levels) => `Läuft von selbst an: ${levels}.`,
    perhaps: (levels) => `Läuft vielleicht an, etwas Reibung entscheidet: ${levels}.`,
    no: (levels) => `Läuft nicht an: ${levels}. Auf stehende Flügel drückt der Wind zu schwach in Drehrichtung.`,
    pushed: (levels) => `Läuft nicht an, würde aber weiterlaufen, wenn man ihn von Hand anwirft: ${levels}.`,
    'neither-way': (levels) =>
      `Bei ${levels} drückt der Wind die Flügel weder in die eine noch in die andere Richtung herum. Drehen können sie sich nur, wenn sie etwas schief stehen.`,
  },
  turnedAnyway: (levels) => `Am Messplatz drehte er sich doch, dort irrt das Modell: ${levels}.`,
  stoodAnyway: (levels) => `Am Messplatz drehte er sich nicht, dort irrt das Modell: ${levels}.`,
  load: {
    more: ({ load, winding, now, then }) =>
      `Die Last verlangt zu viel: Sie hat ${load}, die Wicklung des Generators ${winding}. Mit doppelt so viel Ohm erwartet das Modell ${then} statt ${now}.`,
    less: ({ load, winding, now, then }) =>
      `Die Last verlangt zu wenig: Sie hat ${load}, die Wicklung des Generators ${winding}. Mit halb so viel Ohm erwartet das Modell ${then} statt ${now}.`,
    same: ({ load }) => `Die Last passt: Weder mit der Hälfte noch mit dem Doppelten ihrer ${load} erwartet das Modell deutlich mehr.`,
    unsure: () => 'Ob eine andere Last mehr gäbe, lässt sich mit dem, was vom Aufbau bekannt ist, nicht sagen.',
  },
  length: {
    more: ({ length, now, then }) =>
      `Längere Flügel sollten mehr geben: Ein Viertel länger als ${length}, und das Modell erwartet ${then} statt ${now}.`,
    less: ({ length, now, then }) =>
      `Kürzere Flügel sollten mehr geben: Ein Viertel kürzer als ${length}, und das Modell erwartet ${then} statt ${now}.`,
    same: ({ length }) => 
      `Weder ein Viertel länger noch ein Viertel kürzer als ${length} sollten die Flügel deutlich mehr geben.`,
    unsure: () => 'Ob längere oder kürzere Flügel mehr gäben, lässt sich mit dem, was vom Aufbau bekannt ist, nicht sagen.',
  },
  beyondJet: 'Die Flügel reichen aus dem Wind des Ventilators hinaus: Dort schlagen sie nur ruhende Luft.',
  shares: (load, winding, friction) =>
    `Von 100 Teilen, die der Rotor nimmt, kommen etwa ${load} bei der Last an, ${winding} wärmen die Wicklung des Generators, ${friction} reiben sich in Lagern und Bürsten auf.`,
  flow: {
    at: (level) => `Bei ${level}`,
    row: {
      wind: 'Wind auf dem ganzen Kreis',
      never: 'kann kein Rotor nehmen: Die Luft muss auch weg',
      left: 'ginge noch, weht aber vorbei',
      rotor: 'nimmt der Rotor',
      friction: 'Lager und Bürsten',
      winding: 'wärmt die Wicklung',
      load: 'an der Last',
      measured: 'an der Last, gemessen',
    },
    larger: 'Der Teil des Rotors, größer gezeichnet',
    band: (low, high) => `${low} … ${high}`,
    ofWind: (percent) => `${percent} des Windes`,
    apart: 'Das Gemessene liegt außerhalb dessen, was das Modell erwartet: Auch seine anderen Teile stimmen vielleicht nicht.',
  },
  assumed: {
    wind: 'der Wind',
    'wind across the rotor': 'der Wind quer über den Rotor',
    angle: 'der Flügelwinkel',
    blades: 'die Zahl der Flügel',
    chord: 'die Breite eines Flügels',
    generator: 'die Voltzahl des Generators',
    winding: 'der Widerstand seiner Wicklung',
    friction: 'die Reibung',
    load: 'die Last',
  },
  notSaid: (what) => `Nicht angegeben, also wie üblich angenommen, mit so viel Spielraum, wie es haben kann: ${what}.`,
  fitted: {
    generator: 'die Voltzahl des Generators',
    winding: 'der Widerstand seiner Wicklung',
    load: 'die Lampe',
  },
  fittedTo: (what) => `An Ablesungen dieses Aufbaus angepasst: ${what}.`,
  limits: [
    'Das ist ein Modell. Trau der Reihenfolge der Stufen mehr als den Wattzahlen.',
    'Es rechnet mit gleichmäßigem Wind genau von vorn. Der eines Ventilators wirbelt und ist in der Mitte langsamer.',
    'Es rechnet mit dünnen, flachen Flügeln, die einmal anderswo vermessen wurden. Dicke, raue oder krumme verhalten sich anders.',
  ],
};
