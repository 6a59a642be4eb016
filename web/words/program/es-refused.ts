import { esBoard } from '../board/es.ts';
import { esRemarks } from '../bench/es-remarks.ts';
import { quantityIn } from '../board-words.ts';
import { planSaid, type RefusedWords } from '../refused-words.ts';

const LEFT = 'Se deja como está y no se usa.';

export const esRefused: RefusedWords = {
  notNow: {
    'logged-already': (trial) => `Este tramo ya está guardado, como medida ${trial}.`,
    'too-little': () => 'Desde el último cambio o medida se ha leído demasiado poco: espera unos segundos.',
    turns: () => 'El rotor gira: se guarda solo.',
    'nothing-to-undo': () => 'No hay nada que deshacer.',
    'no-run-left': () => 'No queda ninguna prueba que ajustar.',
    'run-unknown': (run) => `El plan no tiene la prueba «${run}».`,
    'run-gone': (run) =>
      `El plan no tiene la prueba «${run}». Se ha cambiado entretanto: elige otra vez la prueba.`,
    'vote-unknown': (level) => `El plan no tiene el nivel «${level}» para votarlo.`,
    'not-here': () =>
      'Lo que está en marcha no es el montaje propio, y las lecturas reales nunca se mezclan con ello. Elige primero «Sin placa: dos medidores».',
    'readings-here': (trial) =>
      `Las mismas lecturas ya están guardadas para esta prueba, como medida ${trial}.`,
    'rows-here': (trial) =>
      `Algunas de estas filas ya están aquí, por ejemplo como medida ${trial}. Mira otra vez la vista previa.`,
    'no-reading': () => 'No hay ninguna lectura: escribe al menos una.',
    'beyond-meter': () =>
      'Una lectura es mayor de lo que el medidor muestra en esta escala: revisa las dos cosas.',
    'no-trial-there': () => 'No hay ninguna medida en esos momentos.',
    'nothing-to-correct': (trial, quantity) =>
      `La medida ${trial} no tiene ${quantityIn(esBoard.quantity, quantity ?? '')} que se pueda corregir así. Déjala fuera.`,
    'no-calibration': () =>
      'Junto con las correcciones anteriores, eso no es una calibración. Mira otra vez el factor.',
    'fits-no-generator': () =>
      'Estas lecturas no dicen ni la constante del generador ni su devanado.',
    'fits-no-lamp': () => 'Estas lecturas no son las de una lámpara a dos tensiones o más.',
    'level-unknown': (level, factor) => `El plan no tiene el nivel «${level}» de «${factor}».`,
    'level-measured': (level) => `Ya hay pruebas con «${level}»: pásales las medidas una a una.`,
    'level-unfit': (level, ...pair) =>
      `El plan no puede tener el nivel «${level}»: ${planSaid(esRemarks.obstacle, pair)}`,
  },
  door: {
    'no-address': (address) => `Este ordenador no tiene ahora la dirección ${address}.`,
    'not-opened': (address, reason) => `No se pudo abrir ${address} (${reason}).`,
  },
  file: {
    'file-missing': 'No está ese archivo. Comprueba su nombre y su carpeta.',
    'file-unusable': 'El archivo no se puede leer o escribir.',
    'file-exists': 'Allí ya hay algo; no se sobrescribe nada.',
    'file-not-session':
      'No es el archivo de una sesión, o no está entero. Elige uno guardado por Stillmark y cópialo entero.',
    'file-without-plan': 'No contiene ningún plan que se pueda hacer.',
    'file-damaged':
      'El archivo está dañado: se cambió o se cortó. Cópialo otra vez desde donde se guardó.',
    'file-too-new':
      'Este archivo lo guardó un Stillmark más nuevo. Actualiza Stillmark aquí y tráelo después.',
    'file-too-large': 'El archivo tiene más que cualquier clase. Elige uno guardado por Stillmark.',
  },
  damaged: {
    session: (id) => `Está dañada la entrada de la sesión ${id}. ${LEFT}`,
    recording: (id) =>
      `Está dañada la entrada de la grabación ${id}; no se sabe la hora de sus medidas. ${LEFT}`,
    input_chunk: (recording, part) =>
      `Está dañada la parte ${part} de la grabación ${recording}; las medidas valen, pero no se pueden obtener de nuevo. ${LEFT}`,
    trial_revision: (trial, revision) =>
      `Está dañada la medida ${trial}, versión ${revision}. ${LEFT}`,
    plateau: (recording) => `Está dañado un tramo quieto de la grabación ${recording}. ${LEFT}`,
    learnt: (recording) =>
      `Está dañado lo que se aprendió sobre la quietud en la grabación ${recording}. ${LEFT}`,
    ledger: (recording) => `Está dañado un estado del plan en la grabación ${recording}. ${LEFT}`,
    more: (count) => `Hay ${count} entradas dañadas más.`,
  },
};
