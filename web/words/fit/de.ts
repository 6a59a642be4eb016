import type { FitWords } from '../fit-words.ts';

export const deFit: FitWords = {
  open: 'An den Aufbau anpassen',
  heading: { generator: 'Der Generator', lamp: 'Die Lampe' },
  how: {
    generator:
      'Flügel ab, bevor eine Welle von Hand oder von einem anderen Motor gedreht wird; Haare und Ärmel weg. Lies Drehzahl, Volt und Milliampere bei verschiedenen Lasten ab, oder dreh ihn ohne Last.',
    lamp: 'Lies Volt und Milliampere an der Lampe ab, von kaum glimmend bis hell. Sie wird heiß: Lass sie abkühlen, bevor du sie anfasst.',
  },
  speed: 'Die Drehzahl des Rotors',
  speeds: {
    read: 'wurde jedes Mal abgelesen',
    held: 'wurde nicht abgelesen, aber gleich gehalten',
    free: 'wurde nicht abgelesen und sank mit der Last',
  },
  column: { speed: 'U/min', volts: 'V', amps: 'mA' },
  cell: (row, column) => `Ablesung ${row}, ${column}`,
  take: 'Aus den Messungen nehmen',
  taken: (trials, passedOver) =>
    passedOver === 0
      ? `Aus den Messungen genommen: ${trials}.`
      : `Aus den Messungen genommen: ${trials}. Übergangen, weil anders eingestellt oder in anderem Wind: ${passedOver}.`,
  none: {
    'no trials': 'In keiner Messung wurden Volt und Ampere gemessen, während es sich drehte.',
    'load varied': 'Der Plan stellt verschiedene Lasten ein: Zusammen sind sie nicht eine Lampe.',
    'one load': 'Die Last war in allen Messungen dieselbe. Nötig sind mindestens zwei Lasten im selben Wind.',
  },
  emf: (volts) => `${volts} bei 1000 Umdrehungen je Minute.`,
  winding: (ohms) => `Die Wicklung hat ${ohms}.`,
  windingAtMost: (ohms) =>
    `Die Wicklung hat höchstens ${ohms}: Die Drehzahl sank mit der Last, und das steckt mit darin.`,
  unloaded: (volts) => `Ohne Last gäbe er hier ${volts}.`,
  exponent: (power) =>
    `Ihr Strom geht mit der Spannung hoch ${power}; eine übliche Lampe hat etwa 0,55.`,
  lampAt: (volts, amperes) => `Bei ${volts} nimmt sie ${amperes}.`,
  resistor: 'Ihr Strom geht wie die Spannung: Es ist ein einfacher Widerstand.',
  leftOut: (readings) => `Ausgelassen, weil der Faden zu kalt war: ${readings}.`,
  from: (readings) => `Ablesungen: ${readings}.`,
  scatter: (most) => `Sie liegen höchstens ${most} neben der Linie.`,
  gap: {
    'two currents': 'Es fehlen: zwei Ablesungen mit verschiedenen Lasten.',
    'two voltages': 'Es fehlen: zwei Ablesungen bei verschiedenen Spannungen.',
    'a speed': 'Es fehlt: eine Ablesung, während er sich dreht.',
    'same speed': 'Das passt nicht zu einem Generator: mehr Strom und doch mehr Volt. Sieh dir Drehzahlen und Zahlen an.',
    'speed for the constant': 'Die Volt bei 1000 Umdrehungen lassen sich ohne Drehzahl nicht sagen.',
    'speed for the winding': 'Die Ohm der Wicklung lassen sich ohne Drehzahl nicht sagen. Davon lässt sich nichts verwenden.',
    'a load': 'Die Ohm der Wicklung lassen sich ohne Last nicht sagen.',
    'one more': 'Es fehlt: eine Ablesung mehr, um zu sehen, wie sicher das ist.',
    'wider apart': 'Das ist noch nicht sicher. Lies weiter auseinander ab, oder öfter.',
    'no filament': 'Das ist keine Lampe mit Glühfaden. Ist es eine Leuchtdiode, oder stimmt eine Zahl nicht?',
  },
  needed: 'Das wird gebraucht.',
  between: (low, high) => `Von ${low} bis ${high}.`,
  use: 'Das verwenden',
  leave: 'Nicht mehr verwenden',
  inUse: 'In Gebrauch: Die Seite „Warum“ rechnet damit.',
  otherInUse: 'Andere Ablesungen sind in Gebrauch.',
  clear: 'Tabelle leeren',
  axis: { behind: 'Volt vor der Wicklung', speed: 'U/min', volts: 'Volt', amps: 'Milliampere' },
  picture: 'Punkte: abgelesen. Linie: angepasst.',
};
