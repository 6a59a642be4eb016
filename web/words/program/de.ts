import { deRemarks } from '../bench/de-remarks.ts';
import { deBoard } from '../board/de.ts';
import { quantityIn, readingsIn } from '../board-words.ts';
import type { ProgramWords } from '../program-words.ts';
import { planSaid, sayOf } from '../refused-words.ts';
import { deRefused } from './de-refused.ts';

const named = (quantity: string): string => quantityIn(deBoard.quantity, quantity);
const channel = (number: string, quantity: string): string =>
  quantity === '' ? `Kanal ${number}` : `Kanal ${number} (${named(quantity)})`;
const reporter = (number: string, quantity: string): string =>
  number === '' ? 'Die Platine meldet' : `Die Platine meldet zu ${channel(number, quantity)}`;

const KEPT = 'Werte und Messungen bleiben so lange im Speicher und werden danach von selbst gesichert.';

const NO_ZERO: Readonly<Record<string, string>> = {
  'no-readings': 'Es kommen keine Werte, darum lässt sich kein Nullpunkt setzen.',
  'not-announced': 'Die Platine hat nicht gesagt, dass sie sich etwas fragen lässt.',
  unknown: 'Der Sketch der Platine kann keinen Nullpunkt setzen.',
  'under-way': 'Es wird schon ein Nullpunkt gesetzt.',
};
const noZero = (why: string, number: string, quantity: string): string =>
  why === 'no-zero'
    ? `${channel(number, quantity)} hat keinen Nullpunkt, der sich setzen ließe.`
    : (NO_ZERO[why] ?? `Die Platine hat keinen Kanal ${number}.`);

const notNow = (why: string, about: readonly string[]): string =>
  sayOf(deRefused.notNow, why, about);
const fileSaid = (why: string): string =>
  Object.entries(deRefused.file).find(([code]) => code === why)?.[1] ?? why;

const MISFIT =
  'Diese Seite und das Programm passen nicht zusammen. Lad die Seite neu.';

export const deProgram: ProgramWords = {
  notice: {
    'column-ignored': (names) => `Weggelassen, weil hier nichts sie liest: ${names}.`,
    'column-unit': (name, units) =>
      `Spalte ${name} endet nicht mit einer bekannten Einheit (${units}) und wird weggelassen.`,
    'column-twice': (first, second) =>
      `${first} und ${second} sind dieselbe Größe, darum wird keine gelesen: Benenne die um, die nicht gemeint ist.`,
    'pulses-unset': (name) =>
      `${name} zählt Impulse, aber die Einstellungen sagen nicht, was einer bedeutet: Stell den Wind bei einem Impuls je Sekunde ein, oder die Impulse je Umdrehung des Rotors.`,
    'pulses-ambiguous': (name) =>
      `${name} kann Impulse des Windmessers oder des Rotors zählen: Nenn es im Sketch windPulses_count oder rotorPulses_count.`,
    'channel-unknown': (number, quantity, names) =>
      `${channel(number, quantity)} ist keine Größe, die hier bekannt ist, und wird weggelassen. Nimm im Sketch eine von diesen: ${names}.`,
    'channel-unit': (number, quantity, unit, ...known) =>
      `${channel(number, quantity)} kommt in ${unit}; diese Einheit ist dafür nicht bekannt, darum wird er weggelassen. Nimm im Sketch ${known.join(' oder ')}.`,
    'channel-scale': (number, quantity) =>
      `${channel(number, quantity)} hat eine Skala, die nicht stimmen kann, und wird weggelassen. Berichtige Skala, Faktor oder Einheit im Sketch.`,
    'no-announcement': (seconds) =>
      `Es kommen Werte, aber seit ${seconds}\u202fs hat die Platine nicht gesagt, was ihre Zahlen sind. Ihr Sketch muss es am Anfang und alle 10\u202fs senden: $stillmark, $identity, für jeden Kanal eine Zeile $channel, und $pace.`,
    'samples-misfit': (fields, channels) =>
      `Die Zeilen der Platine haben ${fields} Werte, angekündigt sind aber ${channels} Kanäle: Sie werden nicht gelesen. Berichtige eins davon im Sketch.`,
    'board-missing': (number, quantity) =>
      `${reporter(number, quantity)}: Der Sensor antwortet nicht. Prüf seine Drähte.`,
    'board-over': (number, quantity) =>
      `${reporter(number, quantity)}: Der Wert ist größer, als er messen kann. Nimm einen größeren Bereich oder eine kleinere Last.`,
    'board-under': (number, quantity) =>
      `${reporter(number, quantity)}: Der Wert ist kleiner, als er messen kann. Prüf Plus und Minus und den Nullpunkt.`,
    'board-supply': (number, quantity) =>
      `${reporter(number, quantity)}: Die Versorgungsspannung ist zu niedrig. Prüf das USB-Kabel und was die Platine noch versorgt.`,
    'board-refused': (why) =>
      `Die Platine hat ihr Tempo nicht geändert: ${why === 'range' ? 'das liegt außerhalb ihrer Grenzen' : 'ihr Sketch kann das nicht'}. Sie macht weiter wie bisher.`,
    'board-unanswered': (what) => UNANSWERED[what] ?? UNANSWERED['pace'] ?? '',
    'board-version': (theirs, ours) =>
      `Die Platine spricht Version ${theirs} der Stillmark-Zeilen, dieses Programm Version ${ours}. Lad den Sketch, der mit diesem Programm kam.`,
    'button-press': (came, trial) => `Knopf an der Platine: ${PRESSED[came]?.(trial) ?? notNow(came, [trial])}`,
    'header-repeated': () =>
      'Die Platine sendet ihre Kopfzeile immer wieder, und das sieht jedes Mal wie ein Neustart aus. Send sie einmal am Anfang, oder nimm eine Spalte time_ms dazu.',
    'columns-misfit': (fields, columns) =>
      `Die Zeilen haben ${fields} Felder, benannt sind aber ${columns} Spalten: So lässt sich nichts lesen. Drück Reset auf der Platine und vergleich ihre Kopfzeile mit ihren Zeilen.`,
    'decimal-comma': () =>
      'Die Zahlen haben anscheinend ein Dezimalkomma; das könnte auch Tausender oder Spalten trennen. Send sie mit einem Dezimalpunkt.',
    'computer-slept': (span) =>
      `Der Rechner hat ${span} geschlafen: In der Zeit wurde nichts aufgenommen, und was lief, wurde abgebrochen.`,
    'orphan-action': (time_s, action) =>
      `Bei ${time_s}\u202fs liegt keine Messung: Was dort getan wurde (${action}), trifft nichts.`,
    'orphan-zero': (why, number, quantity) =>
      `Der Nullpunkt ließ sich hier nicht setzen: ${noZero(why, number, quantity)}`,
    'network-folder': (folder) =>
      `Der Datenordner ${folder} liegt auf einem Netzlaufwerk oder wird synchronisiert. Bricht die Verbindung ab oder schreiben zwei Rechner zugleich, können Messungen verloren gehen: Nimm mit --data einen Ordner auf diesem Rechner.`,
    'data-restored': (kept, copiedAt, rows) =>
      `Die Datendatei ${kept === '' ? 'war weg' : `war beschädigt oder leer; sie ist noch da als ${kept}`}. ${copiedAt === '' ? 'Es gab keine brauchbare Kopie' : `Die Kopie von ${copiedAt} ist an ihrer Stelle`}, dazu ${rows} Einträge, die noch zu lesen waren. Sieh die neuesten Messungen durch: Die letzten davor können fehlen.`,
    'data-not-copied': (reason) =>
      `Es gibt keine neue Sicherheitskopie der Datendatei (${reason}). Messungen werden trotzdem gespeichert.`,
    'orphan-command': (why, ...about) => `Was hier gesagt wurde, ließ sich nicht tun: ${notNow(why, about)}`,
    'no-time-column': () =>
      'Es gibt keine Spalte time_s: Wann die Werte gemessen wurden, ist also nicht bekannt.',
    'time-back': () =>
      'Die Zeit geht hier zurück oder bleibt stehen: Zeilen werden weggelassen, bis sie wieder weiter ist. Beginnt hier eine neue Aufzeichnung, gehört sie in eine eigene Datei.',
    'row-damaged': (table, ...of) => sayOf(deRefused.damaged, table ?? '', of),
    'upkeep-failed': (reason) =>
      `Um die Datendatei konnte sich niemand kümmern (${reason}): Prüf das Laufwerk.`,
  },
  refusal: {
    'viewers-only': () =>
      'Dieses Gerät kann zuschauen, aber nicht bedienen. Mach es an dem Rechner, auf dem Stillmark läuft, oder lass dir dort einen Pass geben.',
    'trial-unknown': (trial) => `Messung ${trial} gibt es nicht. Lad die Seite neu.`,
    'board-unknown': () => 'Diese Platine ist nicht mehr da. Steck sie an und versuch es noch einmal.',
    'session-unknown': (why = '') =>
      why === 'empty'
        ? 'In dieser Sitzung wurde nichts aufgenommen.'
        : 'Diese Sitzung ist nicht in diesem Datenordner. Wähl eine aus der Liste.',
    'session-refused': (name, its, now) =>
      `Die Messungen von „${name}“ sind ${ORIGIN[its] ?? its}; was jetzt kommt, ist ${ORIGIN[now] ?? now}. Beides kommt nie in eine Sitzung. Wähl zuerst die Quelle.`,
    'replay-only': () =>
      'Das ist eine Wiedergabe: Darin lässt sich nichts ändern. Beende sie zuerst, unter Sitzungen.',
    'columns-refused': (why) => UNNAMED[why] ?? why,
    'command-refused': (why, ...about) => notNow(why ?? '', about),
    'zero-refused': noZero,
    'zero-doubtful': (what, ...readings) =>
      what === 'reads'
        ? `Die Platine zeigt: ${readingsIn(deBoard.quantity, readings)}. Ist der Ventilator aus, und ruhen die Flügel?`
        : 'Was die Platine misst, ist noch nicht bekannt: Warte einen Moment.',
    'passes-full': () => 'Mehr Pässe darf es nicht geben. Nimm zuerst einen zurück.',
    'saving-stopped': () =>
      'Nicht gemacht, weil sich gerade nichts speichern lässt: Mach es noch einmal, wenn es wieder geht.',
    'too-many-requests': () => 'Zu viele Anfragen. Warte eine Sekunde und versuch es noch einmal.',
    'body-too-large': () => 'Das ist zu groß, um es zu senden.',
    'request-too-slow': () => 'Die Anfrage kam zu langsam an. Versuch es noch einmal.',
    internal: () => 'Im Programm ging etwas schief. Was gespeichert ist, ist sicher.',
    'no-answer': () =>
      'Das Programm hat nicht geantwortet. Nichts ist geändert; versuch es noch einmal, wenn es wieder da ist.',
    'answer-unreadable': () => 'Die Antwort des Programms ließ sich nicht lesen. Lad die Seite neu.',
    'file-unanswered': () =>
      'Das Programm hat nicht geantwortet. Nimm die Datei noch einmal auf, wenn es wieder da ist: Was schon hier ist, kommt nur einmal herein.',
    'plan-refused': (kind, about, ...more) =>
      planSaid(deRemarks.obstacle, [kind ?? '', about ?? '', ...more]),
    'door-refused': (why, ...about) => sayOf(deRefused.door, why ?? '', about),
    'file-refused': (why) => fileSaid(why ?? ''),
    'bad-field': (field) =>
      `Etwas passte nicht${field === '' ? '' : ` (${field})`}: Es ist leer, zu lang oder keine der Möglichkeiten. Ändere es und versuch es noch einmal.`,
    'bad-json': () => MISFIT,
    'bad-request': () => MISFIT,
    'json-only': () => MISFIT,
    'not-found': () => MISFIT,
    'method-refused': () => MISFIT,
    'head-too-large': () => 'Der Browser schickt zu viel mit: Lösch für diese Seite die Cookies.',
    'page-not-built': () => 'Die Seite ist nicht gebaut. Ruf „npm run build“ auf und starte neu.',
  },
  store: {
    'disk-full': (folder) => `Der Datenträger mit ${folder} ist voll: Mach Platz. ${KEPT}`,
    'file-busy': (file) => `Ein anderes Programm schreibt in ${file}: Schließ es. ${KEPT}`,
    'folder-unwritable': (folder) =>
      `In ${folder} lässt sich nicht schreiben: Prüf, ob das Laufwerk da, beschreibbar und heil ist. ${KEPT}`,
    'data-folder-unusable': (file, folder) =>
      `${file} ist nicht erreichbar: Schließ das Laufwerk wieder an, oder leg die Datei zurück in ${folder}. ${KEPT}`,
    'data-folder-in-use': (folder) =>
      `Ein anderes Stillmark benutzt ${folder}: Beende es. ${KEPT}`,
    'data-damaged': () =>
      'Die Datendatei war beschädigt und ist wiederhergestellt: Gleich wird weiter gespeichert.',
  },
  port: {
    busy: (path, holders) => {
      if (path === '') {
        return 'Der Rechner prüft die neue Platine noch, das dauert bis zu 15\u202fs. Danach nimmt Stillmark sie von selbst.';
      }
      const who = holders === '' ? 'von einem anderen Programm' : `von ${holders}`;
      return `${path} wird ${who} benutzt. Schließ es dort; dann nimmt Stillmark die Platine von selbst.`;
    },
    denied: (path, group, login) => {
      if (group === '') {
        return `Dieses Konto darf ${path} nicht benutzen. docs/boards.md zeigt eine Regel, mit der es darf, wer am Rechner sitzt.`;
      }
      return login === ''
        ? `${path} ist für die Gruppe ${group}, und dieses Konto ist nicht darin. Tipp: sudo usermod -aG ${group} "$USER" und melde dich dann ab und wieder an.`
        : `${path} ist für die Gruppe ${group}. Dieses Konto ist darin, aber erst nach der nächsten Anmeldung: Melde dich ab und wieder an.`;
    },
    missing: (path) => `An ${path} ist nichts. Steck die Platine an.`,
    failed: (path) => `${path} ging nicht auf. Zieh die Platine ab und steck sie wieder an.`,
  },
  endedEarly: (reason) =>
    `Weiter ließ sich die Aufzeichnung nicht lesen: ${reason}`,
  goneAtOnce:
    'Die Platine verschwand Sekunden nach dem Anstecken: Vielleicht sitzt der Stecker locker, oder ein Dienst dieses Rechners hat sie genommen. docs/boards.md sagt, wie sich das herausfinden lässt.',
  zero: {
    taken: (quantity, counts, worth, before) =>
      `Nullpunkt gesetzt, ${quantity}: ${counts} Zählwerte, das sind ${worth} (vorher: ${before}).`,
    range: (quantity) =>
      `Kein Nullpunkt gesetzt, ${quantity}: Was die Platine misst, ist zu weit von null weg. Stopp den Ventilator, warte, bis die Flügel ruhen, und prüf die Drähte.`,
    busy: (quantity) =>
      `Kein Nullpunkt gesetzt, ${quantity}: Die Platine ist beschäftigt. Versuch es gleich noch einmal.`,
    unknown: (quantity) => `Kein Nullpunkt gesetzt, ${quantity}: Der Sketch der Platine kann das nicht.`,
    'not-announced': (quantity) =>
      `Die Platine sagt, der Nullpunkt sei gesetzt (${quantity}), kündigt ihn aber nicht an. Schau auf ihre Werte.`,
    unanswered: (quantity) =>
      `Die Platine hat nicht geantwortet, ob sie den Nullpunkt gesetzt hat (${quantity}). Schau auf ihre Werte und versuch es noch einmal.`,
  },
};

const UNANSWERED: Readonly<Record<string, string>> = {
  identify:
    'Die Platine wurde gefragt, wer sie ist, und ihre Ankündigung kam nicht vollständig. Ihr Sketch muss auf *IDN? antworten: $stillmark, $identity, für jeden Kanal eine Zeile $channel, und $pace.',
  busy: 'Die Platine war zu beschäftigt, um ihr Tempo zu ändern, und macht weiter wie bisher. Setz das Tempo noch einmal.',
  pace: 'Die Platine antwortet nicht, wenn sie ihr Tempo ändern soll, und macht weiter wie bisher. Prüf, ob ihr Sketch die serielle Schnittstelle liest.',
};

const PRESSED: Readonly<Record<string, (trial: string) => string>> = {
  none: () => 'Es gibt noch keine Messung zum Streichen.',
  already: (trial) => `Messung ${trial} ist schon gestrichen. Hol sie in der Liste zurück.`,
  struck: (trial) =>
    `Messung ${trial} ist gestrichen. Soll sie doch gelten, hol sie in der Liste zurück.`,
  logged: (trial) => `gespeichert als Messung ${trial}.`,
  'no-plan': () => 'Es gibt keinen Plan, in dem es weitergeht.',
  'set-already': () => 'Der Durchgang ist schon eingestellt.',
  set: () => 'Der Aufbau gilt als eingestellt für den nächsten Durchgang.',
};

const ORIGIN: Readonly<Record<string, string>> = {
  board: 'vom eigenen Aufbau',
  simulated: 'simuliert',
  imported: 'aus einer Datei',
};

const UNNAMED: Readonly<Record<string, string>> = {
  time: 'Nur eine Zahl kann die Zeit sein.',
  sequence: 'Nur eine Zahl kann die Zeilen zählen.',
  twice: 'Zwei Zahlen können nicht dieselbe Größe sein: Sag von einer, dass sie unbenutzt ist.',
  none: 'Sag wenigstens, welche Zahl die Spannung, der Strom oder der Wind ist.',
};
