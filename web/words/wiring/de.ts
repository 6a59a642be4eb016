import type { WiringWords } from '../wiring-words.ts';

export const deWiring: WiringWords = {
  page: 'Schaltung',
  heading: 'Was wird sie messen, und wie gut?',
  toBench: 'Messplatz',
  toWorkOut: 'Was berechnet wird',
  kind: {
    divider: 'Spannung, zwei Widerstände',
    shunt: 'Strom, Shunt und Verstärker',
    monitor: 'Beides, I²C-Messbaustein',
    meter: 'Vergleich mit einem Multimeter',
  },
  result: 'Was herauskommt',
  nothingYet: 'Noch nichts zu sagen. Schau, was markiert ist.',
  cautions:
    'Die Zeichnungen zeigen das Prinzip. Bau es so, wie docs/wiring.md es zeichnet, mit den Teilen, die Platine und Menschen schützen. Nur Kleinspannung, bis 30\u202fV: nie Netzspannung aus der Steckdose, auch nicht, um sie zu messen. Halte dich an die Regeln vor Ort und frag eine Fachkraft, wo du nicht sicher bist.',
  field: {
    reference: 'Referenz des Wandlers',
    referenceTolerance: 'Toleranz der Referenz',
    bits: 'Bits des Wandlers',
    partsPerStep: 'Zählwerte je Stufe',
    upper: 'Oberer Widerstand',
    upperTolerance: 'Toleranz des oberen Widerstands',
    lower: 'Unterer Widerstand',
    lowerTolerance: 'Toleranz des unteren Widerstands',
    largestVoltage: 'Größte Spannung ohne Lampe',
    sourceResistance: 'Widerstand des Generators',
    shunt: 'Shunt',
    shuntTolerance: 'Toleranz des Shunts',
    amplifierGain: 'Faktor des Verstärkers',
    amplifierGainTolerance: 'Toleranz des Faktors',
    amplifierOffset: 'Versatz des Verstärkers',
    amplifierMargin: 'Sein Ausgang endet vor der Versorgung um',
    largestCurrent: 'Größter Strom',
    monitorGainTolerance: 'Toleranz des Messbausteins',
    meterRelative: 'Genauigkeit des Messgeräts, vom Wert',
    meterCounts: 'Genauigkeit des Messgeräts, Digits',
    monitorShunt: 'Shunt',
    monitorShuntTolerance: 'Toleranz des Shunts',
    presentGain: 'Faktor, der jetzt im Sketch steht',
    presentOffset: 'Versatz, der jetzt im Sketch steht',
  },
  unit: { bits: 'Bit', counts: 'Digits' },
  fault: {
    empty: ({ label, instance }) => `${label}: Tipp eine Zahl, zum Beispiel ${instance}.`,
    comma: ({ label, typed }) =>
      `${label}: „${typed}“ hat zu viele Zeichen zwischen den Ziffern. Nur ein Komma, und keine Punkte für Tausender.`,
    'no-number': ({ label, typed, instance }) =>
      `${label}: „${typed}“ ist keine Zahl. Tipp eine wie ${instance}, ohne Einheit.`,
    'not-whole': ({ label, instance }) =>
      `${label}: Es muss eine ganze Zahl sein, zum Beispiel ${instance}.`,
    'out-of-limits': ({ label, least, most }) => `${label}: Möglich ist ${least} bis ${most}.`,
  },
  form: {
    converter: 'Der Wandler der Platine',
    board: 'Platine',
    boards: { of8bit: '8 Bit, 5\u202fV', of32bit: '32 Bit, 3,3\u202fV' },
    boardHint:
      'Die 5\u202fV eines USB-Anschlusses haben eine Toleranz von ±5\u202f%. Der Sketch sendet den Mittelwert vieler Wandlungen, in Teilen einer Stufe: Die gelten, wo das Rauschen des Signals über mehr als eine Stufe geht.',
    resistors: 'Die zwei Widerstände',
    rig: 'Der Aufbau',
    rigHint:
      'Miss die größte Spannung mit einem Multimeter: Ventilator auf höchster Stufe, Lampe herausgenommen.',
    shunt: 'Shunt und Verstärker',
    shuntHint:
      'Ohne Verstärker: Faktor 1 ± 0, Versatz 0, Abstand 0. Bei einem Verstärker aus Widerständen zählen deren Toleranzen zusammen.',
    monitor: 'Shunt und Messbaustein',
    range: 'Bereich am Shunt',
  },
  circuit: {
    ground: 'Masse',
    upper: 'R1 oben',
    lower: 'R2 unten',
    shunt: 'Shunt',
    monitor: 'Messbaustein',
    divider: (upper, lower) =>
      `Generator und Lampe nebeneinander. Vom Plus des Generators durch den oberen Widerstand, ${upper}, zum Pin A0, und von dort durch den unteren Widerstand, ${lower}, zur Masse, dem Minus des Generators.`,
    amplified: (shunt, gain) =>
      `Von der Lampe durch den Shunt, ${shunt}, zur Masse, dem Minus des Generators. Ein Verstärker, ${gain}, bringt die Spannung am Shunt zum Pin A1.`,
    monitored: (shunt) =>
      `Vom Plus des Generators durch den Shunt des Messbausteins, ${shunt}, zur Lampe; Lampe, Minus des Generators und Masse des Messbausteins sind eins. Der Messbaustein spricht über SDA und SCL mit der Platine.`,
  },
  offer: {
    resistors: (largest) => `Widerstände, die es zu kaufen gibt, für ${largest}`,
    shunt: (largest) => `Shunt, den es zu kaufen gibt, für ${largest}`,
    over: (upper, lower) => `${upper} über ${lower}`,
    upTo: (series, parts, range) => `${series}: ${parts}, bis ${range}.`,
    take: 'Nimm das',
  },
  causes: {
    caption: 'Woher die Unsicherheit kommt',
    part: 'Teil',
    limits: 'Grenzen',
    adds: 'macht aus',
    together: 'zusammen, in Quadraten',
    shared: (cause) => `${cause} (gemeinsam)`,
  },
  sketch: {
    title: 'Für den Anfang des Sketches',
    copy: 'Kopieren',
    copied: 'Kopiert',
    marked: 'Markiert: jetzt kopieren',
  },
  use: {
    heading: 'Für das ± jeder Messung',
    tell: 'So ist mein Aufbau',
    zeroed: 'Der Nullpunkt wurde mit Ventilator aus gesetzt',
    kept: 'Für diese Platine gemerkt. Es gilt für die Messungen dieser Sitzung, auch für die vorher.',
    partsHint:
      'Was eine Platine über ihre eigene Kalibrierung sagt, gilt mehr: Mit den Zeilen für den Sketch sagt sie es selbst.',
    comparedHint:
      'Es gilt, sobald Faktor und Versatz im Sketch stehen. Was eine Platine über ihre eigene Kalibrierung sagt, gilt mehr.',
  },
  said: {
    atMost: 'höchstens',
    reads: (range, step, share) =>
      `Misst bis ${range} in Stufen von ${step}. Die Teile machen jeden Wert um ${share} unsicher, jedes Mal um denselben Anteil.`,
    noTolerance: 'Keine Toleranz angegeben, darum zeigt dies keine Unsicherheit der Teile.',
    mostFrom: (cause, isShared) =>
      `Das meiste davon kommt von: ${cause}${isShared ? ', für Spannung und Strom gemeinsam' : ''}. Ein Vergleich mit einem Multimeter tritt an seine Stelle.`,
    zero: (built, zeroed) =>
      `Der Nullpunkt ist um ${built} unsicher, so wie gebaut, und um ${zeroed}, wenn er mit Ventilator aus gesetzt wurde.`,
    pinSees: (resistance) =>
      `Vor dem Pin liegen ${resistance}. Wandler von 8-Bit-Platinen wollen höchstens 10\u202fkΩ.`,
    load: (voltage, current, lowered, heat) =>
      `Bei ${voltage} zieht der Teiler ${current} aus dem Generator, was dessen Spannung um ${lowered} senkt; die Widerstände machen aus ${heat} Wärme.`,
    clamps: (current) =>
      `Ist der Generator falsch herum angeschlossen oder zu schnell, fließen durch die Schutzdioden am Pin bis zu ${current}.`,
    shunt: (current, voltage, heat, rating) =>
      `Bei ${current} nimmt der Shunt dem Kreis ${voltage} und macht aus ${heat} Wärme: Nimm einen für ${rating} oder mehr.`,
    floor: (current) =>
      `Unter ${current} kann der Ausgang des Verstärkers nicht folgen: Solche Ströme werden falsch angezeigt, und ein Nullpunkt, der dort gesetzt wird, verdeckt einen Versatz.`,
    busVoltage: (limit, step, share) =>
      `Spannung: bis ${limit} in Stufen von ${step}, um ${share} unsicher.`,
    monitorPins: (limit) =>
      `Keiner seiner Pins darf weniger als −0,3\u202fV oder mehr als ${limit} bekommen, auch nicht kurz: Prüf zuerst, wo am Generator Plus ist.`,
    power: (share) =>
      `Mit dem Teiler dieser Seite ist die Leistung um ${share} unsicher: Die Referenz des Wandlers dient beiden Kanälen, ihr Anteil zählt darum doppelt.`,
    tooSmall: (end, expected) => `Zu klein: Es endet bei ${end}, und du erwartest ${expected}.`,
    remedy: {
      divider: 'Nimm einen größeren oberen oder einen kleineren unteren Widerstand.',
      shunt: 'Nimm einen kleineren Shunt oder einen kleineren Faktor.',
      monitor: 'Wähle einen größeren Bereich oder nimm einen kleineren Shunt.',
    },
    pinSeesTooMuch: (resistance) =>
      `Vor dem Pin liegen ${resistance}: zu viel. Im Wandler wäre noch etwas vom anderen Kanal. Nimm kleinere Widerstände im selben Verhältnis.`,
    clampsTooMuch: (current) =>
      `Durch die Schutzdioden könnten ${current} fließen. Nimm einen größeren oberen Widerstand, damit es unter 5\u202fmA bleibt.`,
  },
  compared: {
    measured: 'Was gemessen wurde',
    quantity: { voltage: 'Spannung, in V', current: 'Strom, in mA' },
    readings: 'Im selben Moment abgelesen',
    heads: { meter: 'Gerät', page: 'Seite', leftOver: 'Rest' },
    cell: {
      meter: (pair, unit) => `Paar ${pair}: Gerät, in ${unit}`,
      page: (pair, unit) => `Paar ${pair}: Seite, in ${unit}`,
    },
    onePairMore: 'Noch ein Paar',
    accuracy: 'Genauigkeit des Messgeräts: ± vom Wert, und Digits',
    accuracyHint: 'Aus der Anleitung des Messgeräts, für den Bereich, in dem es war.',
    present: 'Was beim Ablesen im Sketch steht',
    fault: {
      meter: {
        comma: 'Anzeige des Geräts: nur ein Komma, keine Punkte für Tausender, zum Beispiel 2,31.',
        'no-number': 'Anzeige des Geräts: Tipp die Zahl, wie sie dort steht, zum Beispiel 2,31.',
      },
      page: {
        comma: 'Anzeige der Seite: nur ein Komma, keine Punkte für Tausender, zum Beispiel 2,31.',
        'no-number': 'Anzeige der Seite: Tipp die Zahl, wie sie dort steht, zum Beispiel 2,31.',
      },
    },
    tooFew:
      'Nötig sind mindestens zwei Paare, weit auseinander; drei oder mehr prüfen sich selbst.',
    noLine:
      'Durch diese geht keine Gerade: Die Werte der Seite müssen verschieden sein und steigen, wenn die des Geräts steigen.',
    gain: 'Faktor',
    scattered: (times) =>
      `Die Paare liegen ${times}-mal weiter von einer Geraden, als ihre letzten Stellen erklären. Such eine falsch abgelesene Zahl, oder lies neu ab, wenn beide stillstehen.`,
    found: (gain, share, offset, uncertainty) =>
      `Faktor ${gain}, um ${share} unsicher. Versatz ${offset}, um ${uncertainty} unsicher.`,
    meterLimit: (reading, limit) =>
      `Bei ${reading} kann das Gerät selbst um ±${limit} falsch zeigen. Das ist mitgezählt: Es ist bei jedem Paar gleich, mehr Paare machen es nicht kleiner.`,
    twoPairs: 'Zwei Paare liegen immer auf einer Geraden. Ein drittes zeigte eine falsch abgelesene Zahl.',
    holdsFor:
      'Es gilt für diesen Bereich des Messgeräts, diesen USB-Anschluss und dieses Kabel: Ist die USB-Spannung die Referenz des Wandlers, vergleiche an einem anderen Laptop neu.',
  },
};
