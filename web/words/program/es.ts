import { esRemarks } from '../bench/es-remarks.ts';
import { esBoard } from '../board/es.ts';
import { quantityIn, readingsIn } from '../board-words.ts';
import type { ProgramWords } from '../program-words.ts';
import { planSaid, sayOf } from '../refused-words.ts';
import { esRefused } from './es-refused.ts';

const named = (quantity: string): string => quantityIn(esBoard.quantity, quantity);
const channel = (number: string, quantity: string): string =>
  quantity === '' ? `canal ${number}` : `canal ${number} (${named(quantity)})`;
const reporter = (number: string, quantity: string): string =>
  number === '' ? 'La placa avisa' : `La placa avisa del ${channel(number, quantity)}`;

const KEPT = 'Mientras tanto, lecturas y medidas quedan en la memoria y después se guardan solas.';

const NO_ZERO: Readonly<Record<string, string>> = {
  'no-readings': 'No llegan lecturas, así que no se puede tomar ningún cero.',
  'not-announced': 'La placa no ha anunciado que se le pueda preguntar nada.',
  unknown: 'El sketch de la placa no sabe tomar un cero.',
  'under-way': 'Ya se está tomando un cero.',
};
const noZero = (why: string, number: string, quantity: string): string =>
  why === 'no-zero'
    ? `El ${channel(number, quantity)} no tiene un cero que se pueda tomar.`
    : (NO_ZERO[why] ?? `La placa no tiene canal ${number}.`);

const notNow = (why: string, about: readonly string[]): string =>
  sayOf(esRefused.notNow, why, about);
const fileSaid = (why: string): string =>
  Object.entries(esRefused.file).find(([code]) => code === why)?.[1] ?? why;

const MISFIT =
  'Esta página y el programa no encajan. Vuelve a cargar la página.';

export const esProgram: ProgramWords = {
  notice: {
    'column-ignored': (names) => `Se dejan fuera, porque aquí nada las lee: ${names}.`,
    'column-unit': (name, units) =>
      `La columna ${name} no acaba en una unidad conocida (${units}) y se deja fuera.`,
    'column-twice': (first, second) =>
      `${first} y ${second} dan la misma magnitud, así que no se lee ninguna: cambia el nombre de la que no vale.`,
    'pulses-unset': (name) =>
      `${name} cuenta pulsos, pero los ajustes no dicen qué vale uno: pon el viento de un pulso por segundo, o los pulsos por vuelta del rotor.`,
    'pulses-ambiguous': (name) =>
      `${name} puede contar pulsos del anemómetro o del rotor: en el sketch llámalo windPulses_count o rotorPulses_count.`,
    'channel-unknown': (number, quantity, names) =>
      `El ${channel(number, quantity)} no es una magnitud conocida aquí y se deja fuera. En el sketch usa una de estas: ${names}.`,
    'channel-unit': (number, quantity, unit, ...known) =>
      `El ${channel(number, quantity)} viene en ${unit}, que no se conoce para él, así que se deja fuera. En el sketch usa ${known.join(' o ')}.`,
    'channel-scale': (number, quantity) =>
      `El ${channel(number, quantity)} tiene una escala imposible y se deja fuera. Corrige su escala, ganancia o unidad en el sketch.`,
    'no-announcement': (seconds) =>
      `Llegan lecturas, pero desde hace ${seconds}\u202fs la placa no ha dicho qué son sus números. Su sketch debe enviarlo al empezar y cada 10\u202fs: $stillmark, $identity, una línea $channel por canal, y $pace.`,
    'samples-misfit': (fields, channels) =>
      `Las líneas de la placa traen ${fields} lecturas, pero ha anunciado ${channels} canales, así que no se leen. Corrige una de las dos cosas en el sketch.`,
    'board-missing': (number, quantity) =>
      `${reporter(number, quantity)}: el sensor no responde. Revisa sus cables.`,
    'board-over': (number, quantity) =>
      `${reporter(number, quantity)}: la lectura pasa de lo que puede medir. Usa una escala mayor o una carga menor.`,
    'board-under': (number, quantity) =>
      `${reporter(number, quantity)}: la lectura es menor de lo que puede medir. Revisa la polaridad y el cero.`,
    'board-supply': (number, quantity) =>
      `${reporter(number, quantity)}: la tensión de alimentación es demasiado baja. Revisa el cable USB y qué más alimenta la placa.`,
    'board-refused': (why) =>
      `La placa no ha cambiado su ritmo: ${why === 'range' ? 'está fuera de sus límites' : 'su sketch no sabe hacerlo'}. Sigue como estaba.`,
    'board-unanswered': (what) => UNANSWERED[what] ?? UNANSWERED['pace'] ?? '',
    'board-version': (theirs, ours) =>
      `La placa habla la versión ${theirs} de las líneas de Stillmark, y este programa la versión ${ours}. Carga el sketch que vino con este programa.`,
    'button-press': (came, trial) => `Botón de la placa: ${PRESSED[came]?.(trial) ?? notNow(came, [trial])}`,
    'header-repeated': () =>
      'La placa envía su cabecera una y otra vez, y cada vez parece un reinicio. Envíala una sola vez al principio, o añade una columna time_ms.',
    'columns-misfit': (fields, columns) =>
      `Las líneas tienen ${fields} campos, pero hay ${columns} columnas con nombre: así no se puede leer nada. Pulsa el reset de la placa y compara su cabecera con sus líneas.`,
    'decimal-comma': () =>
      'Los números parecen llevar coma decimal, que también podría separar miles o columnas. Envíalos con punto decimal.',
    'computer-slept': (span) =>
      `El ordenador durmió ${span}: en ese tiempo no se grabó nada, y lo que estaba en marcha se cortó.`,
    'orphan-action': (time_s, action) =>
      `En ${time_s}\u202fs no hay ninguna medida: lo que se hizo allí (${action}) no toca nada.`,
    'orphan-zero': (why, number, quantity) =>
      `Aquí no se pudo tomar el cero: ${noZero(why, number, quantity)}`,
    'network-folder': (folder) =>
      `La carpeta de datos ${folder} está en una unidad de red o sincronizada. Si se corta la conexión o dos ordenadores escriben a la vez, se pueden perder medidas: elige con --data una carpeta de este ordenador.`,
    'data-restored': (kept, copiedAt, rows) =>
      `El archivo de datos ${kept === '' ? 'no estaba' : `estaba dañado o vacío; queda guardado como ${kept}`}. ${copiedAt === '' ? 'No había ninguna copia útil' : `En su lugar está la copia de ${copiedAt}`}, con ${rows} filas más que se pudieron leer. Repasa las medidas más nuevas: pueden faltar las últimas antes del daño.`,
    'data-not-copied': (reason) =>
      `No hay copia de seguridad nueva del archivo de datos (${reason}). Las medidas se guardan igual.`,
    'orphan-command': (why, ...about) => `Lo que aquí se dijo no se pudo hacer: ${notNow(why, about)}`,
    'no-time-column': () =>
      'No hay ninguna columna time_s: no se sabe cuándo se tomaron las lecturas.',
    'time-back': () =>
      'El tiempo retrocede o se para aquí: se dejan fuera filas hasta que vuelva a avanzar. Si aquí empieza otro registro, ponlo en un archivo aparte.',
    'row-damaged': (table, ...of) => sayOf(esRefused.damaged, table ?? '', of),
    'upkeep-failed': (reason) =>
      `No se pudo cuidar el archivo de datos (${reason}): comprueba el disco.`,
  },
  refusal: {
    'viewers-only': () =>
      'Este aparato puede mirar, pero no manejar. Hazlo en el ordenador donde está Stillmark, o pide allí un pase.',
    'trial-unknown': (trial) => `No hay medida ${trial}. Vuelve a cargar la página.`,
    'board-unknown': () => 'Esa placa ya no está. Enchúfala e inténtalo otra vez.',
    'session-unknown': (why = '') =>
      why === 'empty'
        ? 'En esa sesión no se grabó nada.'
        : 'Esa sesión no está en esta carpeta de datos. Elige una de la lista.',
    'session-refused': (name, its, now) =>
      `Las medidas de «${name}» son ${ORIGIN[its] ?? its}; lo que llega ahora es ${ORIGIN[now] ?? now}, y nunca van en la misma sesión. Elige primero la fuente.`,
    'replay-only': () =>
      'Esto es una repetición: en ella no se puede cambiar nada. Termínala primero, en Sesiones.',
    'columns-refused': (why) => UNNAMED[why] ?? why,
    'command-refused': (why, ...about) => notNow(why ?? '', about),
    'zero-refused': noZero,
    'zero-doubtful': (what, ...readings) =>
      what === 'reads'
        ? `La placa lee: ${readingsIn(esBoard.quantity, readings)}. ¿Está apagado el ventilador y están quietas las palas?`
        : 'Todavía no se sabe qué lee la placa: espera un momento.',
    'passes-full': () => 'No puede haber más pases. Retira uno primero.',
    'saving-stopped': () =>
      'No se ha hecho, porque ahora no se puede guardar: hazlo otra vez cuando se pueda.',
    'too-many-requests': () => 'Demasiadas peticiones. Espera un segundo e inténtalo otra vez.',
    'body-too-large': () => 'Es demasiado grande para enviarlo.',
    'request-too-slow': () => 'La petición tardó demasiado. Inténtalo otra vez.',
    internal: () => 'Algo ha fallado en el programa. Lo guardado está a salvo.',
    'no-answer': () =>
      'El programa no ha respondido. No ha cambiado nada; inténtalo otra vez cuando vuelva.',
    'answer-unreadable': () =>
      'No se pudo leer la respuesta del programa. Vuelve a cargar la página.',
    'file-unanswered': () =>
      'El programa no respondió. Cuando vuelva, trae el archivo otra vez: lo que ya está aquí no entra dos veces.',
    'plan-refused': (kind, about, ...more) =>
      planSaid(esRemarks.obstacle, [kind ?? '', about ?? '', ...more]),
    'door-refused': (why, ...about) => sayOf(esRefused.door, why ?? '', about),
    'file-refused': (why) => fileSaid(why ?? ''),
    'bad-field': (field) =>
      `Algo no encajaba${field === '' ? '' : ` (${field})`}: está vacío, es demasiado largo o no es ninguna de las opciones. Cámbialo e inténtalo otra vez.`,
    'bad-json': () => MISFIT,
    'bad-request': () => MISFIT,
    'json-only': () => MISFIT,
    'not-found': () => MISFIT,
    'method-refused': () => MISFIT,
    'head-too-large': () => 'El navegador envía demasiado: borra las cookies de esta página.',
    'page-not-built': () => 'La página no está construida. Ejecuta «npm run build» y empieza de nuevo.',
  },
  store: {
    'disk-full': (folder) => `El disco de ${folder} está lleno: haz sitio. ${KEPT}`,
    'file-busy': (file) => `Otro programa escribe en ${file}: ciérralo. ${KEPT}`,
    'folder-unwritable': (folder) =>
      `No se puede escribir en ${folder}: comprueba que su disco está conectado, se puede escribir y está sano. ${KEPT}`,
    'data-folder-unusable': (file, folder) =>
      `No se llega a ${file}: conecta otra vez su disco, o devuelve el archivo a ${folder}. ${KEPT}`,
    'data-folder-in-use': (folder) => `Otro Stillmark usa ${folder}: ciérralo. ${KEPT}`,
    'data-damaged': () =>
      'El archivo de datos estaba dañado y se ha restaurado: enseguida se sigue guardando.',
  },
  port: {
    busy: (path, holders) => {
      if (path === '') {
        return 'El sistema todavía comprueba la placa nueva, hasta 15\u202fs. Después Stillmark la toma solo.';
      }
      const who = holders === '' ? 'otro programa' : holders;
      return `${path} lo usa ${who}. Ciérralo allí; Stillmark toma entonces la placa solo.`;
    },
    denied: (path, group, login) => {
      if (group === '') {
        return `Esta cuenta no puede usar ${path}. docs/boards.md muestra una regla que se lo permite a quien está ante el ordenador.`;
      }
      return login === ''
        ? `${path} es del grupo ${group}, y esta cuenta no está en él. Escribe: sudo usermod -aG ${group} "$USER" y después cierra la sesión del ordenador y vuelve a entrar.`
        : `${path} es del grupo ${group}. Esta cuenta está en él, pero solo desde la próxima vez que entres: cierra la sesión del ordenador y vuelve a entrar.`;
    },
    missing: (path) => `No hay nada en ${path}. Enchufa la placa.`,
    failed: (path) => `${path} no se abrió. Desenchufa la placa y enchúfala otra vez.`,
  },
  endedEarly: (reason) => `La grabación no se pudo leer más: ${reason}`,
  goneAtOnce:
    'La placa desapareció segundos después de enchufarla: quizá la clavija está floja, o un servicio de este ordenador la ha tomado. docs/boards.md dice cómo averiguarlo.',
  zero: {
    taken: (quantity, counts, worth, before) =>
      `Cero tomado, ${quantity}: ${counts} cuentas, que son ${worth} (antes: ${before}).`,
    range: (quantity) =>
      `No se tomó el cero, ${quantity}: lo que lee la placa está demasiado lejos de cero. Para el ventilador, espera a que las palas estén quietas y revisa los cables.`,
    busy: (quantity) =>
      `No se tomó el cero, ${quantity}: la placa está ocupada. Inténtalo otra vez dentro de un momento.`,
    unknown: (quantity) => `No se tomó el cero, ${quantity}: el sketch de la placa no sabe hacerlo.`,
    'not-announced': (quantity) =>
      `La placa dice que tomó el cero (${quantity}), pero no lo anuncia. Mira sus lecturas.`,
    unanswered: (quantity) =>
      `La placa no ha respondido si tomó el cero (${quantity}). Mira sus lecturas e inténtalo otra vez.`,
  },
};

const UNANSWERED: Readonly<Record<string, string>> = {
  identify:
    'Se preguntó a la placa quién es, y su anuncio no llegó entero. Su sketch debe responder a *IDN? con $stillmark, $identity, una línea $channel por canal, y $pace.',
  busy: 'La placa estaba demasiado ocupada para cambiar su ritmo y sigue como estaba. Pon el ritmo otra vez.',
  pace: 'La placa no responde cuando se le pide cambiar su ritmo y sigue como estaba. Comprueba que su sketch lee el puerto serie.',
};

const PRESSED: Readonly<Record<string, (trial: string) => string>> = {
  none: () => 'todavía no hay ninguna medida que tachar.',
  already: (trial) => `la medida ${trial} ya está tachada. Recupérala en la lista.`,
  struck: (trial) => `la medida ${trial} está tachada. Para deshacerlo, recupérala en la lista.`,
  logged: (trial) => `guardada como medida ${trial}.`,
  'no-plan': () => 'no hay ningún plan en el que seguir.',
  'set-already': () => 'la prueba ya está ajustada.',
  set: () => 'el montaje cuenta como ajustado para la prueba siguiente.',
};

const ORIGIN: Readonly<Record<string, string>> = {
  board: 'del montaje propio',
  simulated: 'del montaje simulado',
  imported: 'de un archivo',
};

const UNNAMED: Readonly<Record<string, string>> = {
  time: 'Solo un número puede ser el tiempo.',
  sequence: 'Solo un número puede contar las líneas.',
  twice: 'Dos números no pueden ser la misma magnitud: di de uno que está sin usar.',
  none: 'Di al menos qué número es la tensión, la corriente o el viento.',
};
