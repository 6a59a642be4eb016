import type { ByHandWords } from '../by-hand-words.ts';
import { withComma } from '../numbers.ts';

const or = (names: readonly string[]): string => names.join(' oder ');
const quoted = (names: readonly string[]): string => names.map((name) => `„${name}“`).join(', ');

export const deByHand: ByHandWords = {
  keyed: {
    open: 'Eintippen',
    heading: 'Ablesungen zweier Messgeräte',
    apart: 'Was gerade läuft, ist nicht dein eigener Aufbau. Was deine Messgeräte zeigen, kommt in eine eigene Sitzung.',
    begin: 'Beginnen',
    offer: 'Keine Platine? Zwei Messgeräte ablesen',
    forRun: 'Für',
    noRun: 'keinen Durchgang',
    hasTrial: (trial) => `Dieser Durchgang hat schon Messung ${trial}. Eine weitere kommt dazu.`,
    meter: { voltage: 'Spannungsmesser', current: 'Strommesser', windSpeed: 'Windmesser' },
    changeMeters: 'Andere Geräte oder Bereiche',
    addWindMeter: 'Windmesser dazu',
    range: 'Bereich bis',
    lastDigit: 'Letzte Stelle',
    percent: '± % vom Wert',
    counts: '+ Digits',
    unit: 'Einheit',
    metersHint: 'Aus der Anleitung: ±(% vom Messwert + Digits der letzten Stelle), für den eingestellten Bereich.',
    reading: (place) => `Ablesung ${place}`,
    addReading: 'Noch eine Ablesung',
    together: 'Beide im selben Moment ablesen, alle Stellen.',
    didNotTurn: 'Es drehte sich nicht',
    note: 'Notiz',
    log: 'Speichern',
    oneReading: 'Eine Ablesung sagt nichts über ihre Streuung: Dieses ± kommt nur von den Geräten. Drei sagen mehr.',
    severalReadings: (count) => `Streuung von ${count} Ablesungen und Grenzen der Geräte.`,
    toMend: (count) => (count === 1 ? 'Erst noch 1 Sache richten.' : `Erst noch ${count} Sachen richten.`),
    fault: {
      empty: ({ instance }) => `Tipp eine Zahl, zum Beispiel ${withComma(instance)}.`,
      overload: () => 'OL heißt: Der Bereich ist zu klein. Stell einen größeren ein und lies neu ab.',
      'no-number': ({ typed, instance }) =>
        `„${typed}“ ist keine Zahl. Tipp eine wie ${withComma(instance)}.`,
      'two-numbers': ({ typed, decimal, whole }) =>
        `„${typed}“ könnte ${decimal} oder ${whole} sein. Tipp es mit Punkt: ${decimal}, oder ohne: ${whole}.`,
      'two-signs': ({ typed }) => `„${typed}“ hat mehr als ein Komma oder einen Punkt. Lass eines stehen.`,
      'no-unit-wanted': ({ unit }) => `Lass „${unit}“ weg: Nur die Zahl ist gefragt.`,
      'unit-unknown': ({ unit, known }) => `„${unit}“ ist hier nicht bekannt. Nimm ${or(known)}.`,
      'nothing-read': () => 'Tipp mindestens eine Ablesung.',
      'not-above-zero': () => 'Tipp eine Zahl über 0.',
      'below-zero': () => 'Wind ist nicht unter 0. Lass das Minus weg.',
      'out-of-bounds': ({ most, unit }) => `Von 0 bis ${most} ${unit === '%' ? '%' : 'Digits'}.`,
      'digit-beyond-range': () => 'Die letzte Stelle ist weniger wert als der Bereich. Prüf beide.',
      'no-meter-is-exact': () =>
        'Kein Gerät ist genau. In der Anleitung steht, wie genau, zum Beispiel ±(0,8 % + 2).',
      'signs-differ': () =>
        'Spannung und Strom haben verschiedene Vorzeichen: An einem Gerät sind die Leitungen vertauscht. Lass das Minus weg, wenn der Rest stimmt.',
      'wind-without-meter': () => 'Sag erst, welchen Bereich und welche Genauigkeit der Windmesser hat.',
      'beyond-range': ({ reading, range }) =>
        `${withComma(reading)} ist mehr, als dieser Bereich zeigt (${withComma(range)}). Stell einen größeren ein, wähl ihn oben und lies neu ab.`,
      'between-steps': ({ reading, step }) =>
        `Dieser Bereich zeigt Schritte von ${withComma(step)}; ${withComma(reading)} liegt dazwischen. Prüf Ablesung und Bereich.`,
    },
  },
  imported: {
    open: 'Tabelle',
    heading: 'Eine Tabelle mit Messungen',
    hint: 'Eine Zeile je Messung, in der ersten Zeile die Spalten mit Einheit: round,angle_deg,voltage_V,current_mA',
    choose: 'CSV-Datei oder Sitzungsdatei einer anderen Gruppe wählen',
    paste: 'oder hier einfügen',
    columns: 'Spalten',
    notRead: 'Nicht gelesen',
    heads: { line: 'Zeile', set: 'Eingestellt', goesTo: 'Wird' },
    noRun: 'ohne Durchgang',
    present: (trial) => `schon da, Messung ${trial}`,
    struck: 'gestrichen',
    line: (line) => `Zeile ${line}`,
    wrong: (count) => (count === 1 ? '1 Zeile ist nicht lesbar:' : `${count} Zeilen sind nicht lesbar:`),
    understood: (rows) => (rows === 1 ? '1 Zeile verstanden.' : `${rows} Zeilen verstanden.`),
    presentCount: (count) =>
      count === 1
        ? '1 Zeile ist schon in dieser Sitzung und bleibt weg.'
        : `${count} Zeilen sind schon in dieser Sitzung und bleiben weg.`,
    takeAgain: 'Noch einmal übernehmen',
    ofGroup: 'Sie sind von Gruppe',
    asTold: 'wie die Tabelle sagt',
    noUncertainty: 'Wo die Tabelle keine Unsicherheit nennt, ist sie nicht bekannt: Dort steht „–“.',
    bringIn: (rows) => (rows === 1 ? '1 Messung übernehmen' : `${rows} Messungen übernehmen`),
    withoutWrong: (rows, wrong) =>
      `${rows} übernehmen, ${wrong === 1 ? '1 Zeile' : `${wrong} Zeilen`} weglassen`,
    nothing: 'Es gibt nichts zu übernehmen.',
    tooLarge: 'Diese Datei ist zu groß für eine Tabelle mit Messungen.',
    noSession: 'Das ist keine Datei einer Sitzung, oder sie ist nicht vollständig. Speichere sie am anderen Laptop noch einmal und kopiere sie ganz.',
    fault: {
      'table-empty': () => 'Die Tabelle ist leer.',
      'not-text': () => 'Das ist kein reiner Text. Speichere die Tabelle als CSV in UTF-8.',
      'row-endless': () =>
        'Die Zeile endet nicht: Einem Anführungszeichen fehlt das zweite. Richte es und versuch es noch einmal.',
      'too-many-rows': ({ most }) => `Es sind mehr als ${most} Zeilen. Nimm heraus, was keine Messung ist.`,
      'column-twice': ({ column }) => `Zwei Spalten heißen ${column}. Nimm eine heraus.`,
      'columns-alike': ({ first, second }) =>
        `Die Spalten ${first} und ${second} sagen dasselbe. Nimm eine heraus.`,
      'names-missing': () =>
        'Wo die Namen der Spalten stehen sollten, stehen Zahlen. Setz eine Zeile wie angle_deg,voltage_V,current_mA darüber.',
      'no-power': () =>
        'Es gibt weder Leistung noch Spannung und Strom. Nenn die Spalten mit Einheit: voltage_V, current_mA, power_mW.',
      'no-factor': () => 'Es fehlt eine Spalte mit den Stufen, zum Beispiel angle_deg.',
      'unit-missing': ({ column, wanted }) =>
        `Spalte ${column} wird nicht gelesen: Nenn sie ${or(wanted)}.`,
      'field-count': ({ fields, columns }) =>
        `Hier sind ${fields} Felder, aber ${columns} Spalten. Richte die Zeile oder nimm sie heraus.`,
      'cell-empty': ({ column }) => `${column} ist leer. Füll es aus oder nimm die Zeile heraus.`,
      'level-unknown': ({ column, text, levels }) =>
        `„${text}“ ist keine Stufe von ${column} im Plan. Er hat ${quoted(levels)}.`,
      'too-long': ({ column, most }) => `${column} hat mehr als ${most} Buchstaben. Kürze es.`,
      'other-sign': ({ column, text, sign }) =>
        `${column}: „${text}“ könnten zwei Zahlen sein. ${
          sign === '.'
            ? 'Nimm in der ganzen Tabelle den Punkt.'
            : 'Andere Zahlen der Tabelle haben ein Komma. Nimm in der ganzen Tabelle dasselbe.'
        }`,
      'no-number': ({ column, text }) =>
        `${column}: „${text}“ ist keine Zahl. Richte es oder nimm die Zeile heraus.`,
      'below-zero': ({ column }) => `${column} ist unter 0. Richte es oder nimm die Zeile heraus.`,
      'not-possible': ({ column, text }) =>
        `${column}: ${text} ist hier nicht möglich. Prüf die Zahl und die Einheit in der ersten Zeile.`,
      'value-missing': ({ quantity }) =>
        `Es fehlt ${quantity === 'voltage_V' ? 'die Spannung' : 'der Strom'}. Füll es aus oder nimm die Zeile heraus.`,
      'power-disagrees': ({ stated, product }) =>
        `Die Leistung ist ${withComma(stated)} W, Spannung mal Strom aber ${withComma(product)} W. Prüf die Einheiten in der ersten Zeile.`,
      simulated: () =>
        'Diese Zeile ist simuliert: Nichts wurde gemessen. Sie kommt nicht zu eigenen Messungen.',
      'neither-yes-nor-no': ({ column, text }) =>
        `${column}: „${text}“ ist weder ja noch nein. Schreib 1 für eine gestrichene Zeile, sonst nichts.`,
    },
  },
};
