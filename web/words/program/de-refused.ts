import { deBoard } from '../board/de.ts';
import { deRemarks } from '../bench/de-remarks.ts';
import { quantityIn } from '../board-words.ts';
import { planSaid, type RefusedWords } from '../refused-words.ts';

const LEFT = 'Der Eintrag bleibt, wie er ist, und wird nicht benutzt.';

export const deRefused: RefusedWords = {
  notNow: {
    'logged-already': (trial) => `Dieser Abschnitt ist schon gespeichert, als Messung ${trial}.`,
    'too-little': () => 'Seit der letzten Änderung oder Messung ist noch zu wenig gelesen: Warte einige Sekunden.',
    turns: () => 'Der Rotor dreht sich: Es speichert von selbst.',
    'nothing-to-undo': () => 'Es gibt nichts rückgängig zu machen.',
    'no-run-left': () => 'Es ist kein Durchgang mehr übrig, der einzustellen wäre.',
    'run-unknown': (run) => `Der Plan hat keinen Durchgang „${run}“.`,
    'run-gone': (run) =>
      `Der Plan hat keinen Durchgang „${run}“. Er wurde inzwischen geändert: Wähl den Durchgang neu.`,
    'vote-unknown': (level) => `Der Plan hat keine Stufe „${level}“, auf die sich tippen ließe.`,
    'not-here': () =>
      'Was gerade läuft, ist nicht der eigene Aufbau, und echte Anzeigen kommen nie dazu. Wähl zuerst „Keine Platine: zwei Messgeräte“.',
    'readings-here': (trial) =>
      `Dieselben Anzeigen sind für diesen Durchgang schon gespeichert, als Messung ${trial}.`,
    'rows-here': (trial) =>
      `Einige dieser Zeilen sind schon da, zum Beispiel als Messung ${trial}. Sieh die Vorschau noch einmal an.`,
    'no-reading': () => 'Es ist nichts abgelesen: Tipp wenigstens eine Anzeige ein.',
    'beyond-meter': () =>
      'Eine Anzeige ist mehr, als das Messgerät in diesem Bereich zeigt: Prüf beides.',
    'no-trial-there': () => 'Zu keiner dieser Zeiten gibt es eine Messung.',
    'nothing-to-correct': (trial, quantity) =>
      `Messung ${trial} hat kein ${quantityIn(deBoard.quantity, quantity ?? '')}, das sich so berichtigen ließe. Lass sie weg.`,
    'no-calibration': () =>
      'Zusammen mit den Berichtigungen davor ergibt das keine Kalibrierung. Sieh den Faktor noch einmal an.',
    'fits-no-generator': () =>
      'Diese Werte verraten weder die Konstante des Generators noch seine Wicklung.',
    'fits-no-lamp': () => 'Diese Werte sind nicht die einer Lampe bei zwei Spannungen oder mehr.',
    'level-unknown': (level, factor) => `Der Plan hat bei „${factor}“ keine Stufe „${level}“.`,
    'level-measured': (level) =>
      `Bei „${level}“ gibt es schon Durchgänge: Ordne ihnen die Messungen einzeln zu.`,
    'level-unfit': (level, ...pair) =>
      `Die Stufe „${level}“ kann der Plan nicht haben: ${planSaid(deRemarks.obstacle, pair)}`,
  },
  door: {
    'no-address': (address) => `Dieser Rechner hat die Adresse ${address} gerade nicht.`,
    'not-opened': (address, reason) => `${address} ließ sich nicht öffnen (${reason}).`,
  },
  file: {
    'file-missing': 'Die Datei ist nicht da. Prüf Namen und Ordner.',
    'file-unusable': 'Die Datei lässt sich nicht lesen oder schreiben.',
    'file-exists': 'Dort liegt schon etwas; es wird nichts überschrieben.',
    'file-not-session':
      'Das ist keine Datei einer Sitzung, oder sie ist nicht ganz da. Wähl eine, die Stillmark gespeichert hat, und kopier sie ganz.',
    'file-without-plan': 'Darin ist kein Plan, der sich durchführen lässt.',
    'file-damaged':
      'Die Datei ist beschädigt: Sie wurde verändert oder abgeschnitten. Kopier sie neu von dort, wo sie gespeichert wurde.',
    'file-too-new':
      'Ein neueres Stillmark hat diese Datei gespeichert. Bring Stillmark hier auf den neuen Stand und nimm sie dann auf.',
    'file-too-large':
      'In der Datei ist mehr als in jeder Unterrichtsstunde. Wähl eine, die Stillmark gespeichert hat.',
  },
  damaged: {
    session: (id) => `Beschädigt ist der Eintrag der Sitzung ${id}. ${LEFT}`,
    recording: (id) =>
      `Beschädigt ist der Eintrag der Aufzeichnung ${id}; ihre Messungen haben keine Uhrzeit. ${LEFT}`,
    input_chunk: (recording, part) =>
      `Beschädigt ist Teil ${part} von Aufzeichnung ${recording}; die Messungen gelten, lassen sich aber nicht neu herleiten. ${LEFT}`,
    trial_revision: (trial, revision) =>
      `Beschädigt ist Messung ${trial}, Fassung ${revision}. ${LEFT}`,
    plateau: (recording) =>
      `Beschädigt ist ein ruhiger Abschnitt der Aufzeichnung ${recording}. ${LEFT}`,
    learnt: (recording) =>
      `Beschädigt ist, was in Aufzeichnung ${recording} über das Ruhigwerden gelernt wurde. ${LEFT}`,
    ledger: (recording) =>
      `Beschädigt ist ein Stand des Plans in Aufzeichnung ${recording}. ${LEFT}`,
    more: (count) => `${count} weitere Einträge sind beschädigt.`,
  },
};
