import { esAnswer, esSentence } from './answer/es.ts';
import { esBench } from './bench/es.ts';
import { esBoard } from './board/es.ts';
import { esBudget } from './budget/es.ts';
import { esFit } from './fit/es.ts';
import type { Catalogue } from './catalogue.ts';
import { esNetwork } from './network/es.ts';
import { listedIn } from './lists.ts';
import { withComma } from './numbers.ts';
import { esTop } from './top/es.ts';
import { esRig } from './rig/es.ts';
import { esWind } from './wind/es.ts';

const QUANTITY = {
  voltage_V: 'Tensión',
  current_A: 'Corriente',
  windSpeed_mps: 'Viento',
  power_W: 'Potencia',
};
/** As the subject of a sentence, at its beginning. */
const SUBJECT = {
  voltage_V: 'La tensión',
  current_A: 'La corriente',
  windSpeed_mps: 'El viento',
  power_W: 'La potencia',
};
const WATT = { µ: 'microvatio', m: 'milivatio', '': 'vatio', k: 'kilovatio' };

export const es: Catalogue = {
  language: 'es',
  name: 'Español',
  bench: esBench,
  network: esNetwork,
  board: esBoard,
  budget: esBudget,
  wind: esWind,
  fit: esFit,
  rig: esRig,
  number: withComma,
  quantity: QUANTITY,
  list: listedIn('es'),
  top: esTop,
  instruction: {
    windOnly: ['Todavía', 'no gira.'],
    connecting: ['Conectando.'],
    noNews: ['Sin noticias.'],
    noBoard: ['Enchufa', 'la placa.'],
    meters: ['Lee los dos', 'medidores.'],
    starting: ['La placa', 'arranca.'],
    unplugged: ['Placa', 'desenchufada.'],
    silent: ['La placa', 'no dice nada.'],
    refused: {
      busy: ['La placa', 'está ocupada.'],
      denied: ['Aún sin', 'permiso.'],
      missing: ['La placa', 'no está.'],
      failed: ['La placa', 'no se abre.'],
    },
    unreadable: ['No se lee', 'la placa.'],
    unmapped: ['¿Qué es', 'cada número?'],
    ended: ['Fin.'],
    waiting: ['Enciende el', 'ventilador.'],
    spinningUp: ['Apártate.', 'Ya acelera.'],
    runningDown: ['Espera. Las', 'aspas giran.'],
    windDies: ['Espera. Aún', 'hay viento.'],
    moving: ['No toques.', 'Aún se mueve.'],
    settling: ['No toques.', 'Casi quieto.'],
    hold: ['No muevas', 'nada.'],
    still: ['Quieto.'],
    logged: ['Quieto.', 'Guardado.'],
    didNotTurn: ['Guardado.', 'No ha girado.'],
    disturbed: ['¡Un golpe!', 'Espera más.'],
    unsettled: {
      cycle: ['No para', 'de oscilar.'],
      gusts: ['El viento', 'va a rachas.'],
      drift: ['No deja', 'de variar.'],
    },
    stopFan: ['Apaga el', 'ventilador.'],
    startFan: ['Apártate y', 'enciéndelo.'],
    finished: ['Todo está', 'medido.'],
    paused: ['Espera: no', 'guarda nada.'],
    set: ({ kind, name, level: { label, value } }) => {
      switch (kind) {
        case 'angle':
          return ['Pon las aspas', `a ${label}.`];
        case 'length':
          return ['Monta aspas:', `${label}.`];
        case 'blades':
          return value === null ? ['Monta aspas:', `${label}.`] : ['Monta', `${bladesOf(value)}.`];
        case 'fan':
          return ['Ventilador:', `${label}.`];
        case 'load':
          return ['Pon la carga', `en ${label}.`];
        case 'own':
          return [`${name}:`, `${label}.`];
      }
    },
    setAll: (labels) => ['Prepara:', `${labels.join(', ')}.`],
  },
  below: {
    connecting: {
      moving: 'Pidiendo lecturas al programa del portátil.',
      detail: '',
      state: 'Llamando al portátil',
    },
    noNews: (time) => ({
      moving: `Nada del portátil desde hace ${time}. Se intenta otra vez.`,
      detail: 'Quizá el portátil sigue guardando. Esta página continúa sola.',
      state: `Hace ${time}. Se intenta.`,
    }),
    noBoard: {
      moving: 'Todavía no se encuentra ninguna placa.',
      detail: 'Se usa sola en cuanto aparece.',
      state: 'Aún no aparece',
    },
    meters: {
      moving:
        'Espera a que los dos estén quietos y escribe lo que marcan.',
      detail: 'Se guarda en cuanto se escribe.',
      state: 'Escribe lo que marcan',
    },
    readMeters: {
      moving:
        '¿Ventilador apagado y palas quietas? Entonces ajusta. Enciende, apártate y espera a que los dos medidores estén quietos.',
      detail: 'Aquí nada oye el montaje: mira siempre primero.',
      state: 'Apaga antes de ajustar',
    },
    starting: {
      moving: 'Esperando la primera lectura.',
      detail: '',
      state: 'Esperando una lectura',
    },
    unplugged: {
      moving: 'Mete el cable.',
      detail: 'Lo guardado está a salvo. La placa vuelve a usarse sola.',
      state: 'Mete el cable',
    },
    silent: {
      moving: 'No llega ninguna lectura. Mete bien el cable o pulsa el reset de la placa.',
      detail: 'Lo guardado está a salvo.',
      state: 'Mete bien el cable',
    },
    refused: { moving: '', detail: 'Se intenta otra vez solo.', state: 'Mira el portátil' },
    unreadable: (firstLine) => ({
      moving: 'Llega texto, pero ninguna lectura. ¿Es correcta la velocidad de la placa?',
      detail: `Su primera línea debe nombrar las columnas, así: ${firstLine}`,
      state: 'Mira el portátil',
    }),
    unmappedYet: {
      moving: 'La placa aún no lo ha dicho. Lo dice cada 10\u202fs.',
      detail: '',
      state: 'La placa lo dirá',
    },
    unmapped: (firstLine) => ({
      moving: 'Llegan números, pero sin nombre. Ponles nombre abajo.',
      detail: `O haz que la placa envíe primero una línea así: ${firstLine}`,
      state: 'Mira el portátil',
    }),
    ended: {
      moving: 'La grabación ha llegado a su fin.',
      detail: '',
      state: 'La grabación ha acabado',
    },
    spinningUp: 'Aleja manos, pelo y mangas.',
    still: (time) => ({ moving: `Grabando: van ${time}.`, detail: '', state: `Grabando: ${time}` }),
    notSaved: {
      moving: 'No se guarda: ahora mismo no se puede guardar.',
      detail: 'Se guarda en cuanto se pueda otra vez.',
      state: 'Aún sin guardar',
    },
    logged: {
      moving: 'Ahora apaga el ventilador. Espera a que paren las aspas.',
      detail: '',
      state: 'Apaga el ventilador',
    },
    disturbed: 'No se pierde nada. Se guarda cuando esté quieto.',
    unsettled: {
      cycle: {
        moving: 'La potencia sube y baja; esperar no sirve.',
        detail:
          '¿Resbala un aspa o roza el eje? O gira un poco las aspas, o mueve el ventilador. Antes apágalo y deja parar las aspas.',
        state: 'Esperar no sirve',
      },
      gusts: {
        moving: 'Esperar no lo calma.',
        detail: 'Cierra puertas y ventanas, sal de la corriente o mueve el ventilador.',
        state: 'Cierra puertas, aparta',
      },
      drift: {
        moving: 'Tras medio minuto, la potencia sigue yendo hacia un lado.',
        detail:
          'Deja calentar el ventilador y la lámpara, y mira si resbala un aspa. Antes apaga y deja parar las aspas.',
        state: 'Deja que se caliente',
      },
    },
    stopFan: {
      moving: 'No toques nada todavía.',
      detail: 'Deja que las aspas se paren solas.',
      state: 'No toques nada aún',
    },
    bladesTurn: {
      moving: 'No toques nada hasta que se paren.',
      detail: 'Deja que las aspas se paren solas.',
      state: 'No toques nada aún',
    },
    windDies: {
      moving: 'No toques nada hasta que se pare el ventilador.',
      detail: 'Deja que el ventilador se pare solo.',
      state: 'No toques nada aún',
    },
    setBlades: {
      moving: 'Mira primero: nada debe girar. ¿Ventilador apagado? Entonces ajusta y apártate.',
      detail: '¿Aspas bien sujetas? ¿Manos, pelo y mangas lejos?',
      state: 'Mira: ¿nada gira?',
    },
    setBladesUnheard: {
      moving:
        'Mira primero: ¿está apagado el ventilador y no gira nada? Entonces ajusta y apártate.',
      detail: 'Aquí nada oye el ventilador. Pulsa la tecla cuando esté listo.',
      state: '¿Apagado? ¿Nada gira?',
    },
    startFan: {
      moving: 'Manos, pelo y mangas lejos. Luego enciende el ventilador.',
      detail: 'Cada tramo quieto se guarda solo.',
      state: '¿Manos y pelo lejos?',
    },
    finished: {
      moving: 'Cada prueba del plan tiene su medida.',
      detail: '¿Otra vez? Añade una prueba o haz un plan nuevo.',
      state: 'El plan está completo',
    },
    paused: {
      moving: 'No se guarda nada hasta que sigas.',
      detail: 'Las lecturas se siguen grabando.',
      state: 'Parado en el portátil',
    },
    nothingTurns: 'Todavía no gira nada.',
    windWithoutTurn: {
      moving: 'Hay viento, pero todavía no gira nada.',
      detail: 'Manos fuera. Si sigue así, también se guarda como resultado.',
      state: 'Manos fuera',
    },
    noWind: 'Todavía no hay viento.',
    eachIsLogged: 'Cada tramo quieto se guarda solo.',
    logsItself: 'Se guarda solo.',
    logsUsually: (time) => `Se guarda solo, casi siempre ${time} después de empezar.`,
    allJoined: 'Todos los hilos juntos.',
    left: (time) => `Faltan ${time}.`,
    loose: (loose, all) =>
      loose === all ? `Los ${all} hilos sueltos.` : `${loose} de ${all} hilos sueltos.`,
    looseShort: (loose) => (loose === 1 ? '1 hilo suelto' : `${loose} hilos sueltos`),
    saved: (trial, time) => `Medida ${trial} guardada a las ${time}.`,
    savedStill: (trial, time) => `Medida ${trial}: no giró. Guardada a las ${time}.`,
    savedAs: (trial, result, time) => `Medida ${trial}, ${result}, guardada a las ${time}.`,
  },
  motion: {
    still: 'quieto',
    upAndDown: 'sube y baja',
    rising: 'sube',
    falling: 'baja',
    change: (amount, time) => `${amount} en ${time}`,
    goesUpAndDown: (quantity) => `${SUBJECT[quantity]} sube y baja.`,
    stillRises: (quantity, change) => `${SUBJECT[quantity]} aún sube: ${change}.`,
    stillFalls: (quantity, change) => `${SUBJECT[quantity]} aún baja: ${change}.`,
    noReading: 'sin lectura',
  },
  plan: {
    setting: ({ kind, name, level: { label, value } }) => {
      switch (kind) {
        case 'angle':
          return `Aspas a ${label}`;
        case 'length':
          return `Aspas: ${label}`;
        case 'blades':
          return value === null ? `Aspas: ${label}` : bladesOf(value);
        case 'fan':
          return `Ventilador: ${label}`;
        case 'load':
          return `Carga: ${label}`;
        case 'own':
          return `${name}: ${label}`;
      }
    },
    trial: (id) => `Medida ${id}`,
    countOf: (count, all) => `${count} de ${all}`,
    runOf: (run, all) => `Prueba ${run} de ${all}`,
    round: (round) => `Ronda ${round}`,
    group: (group) => `Grupo ${group}`,
    now: 'ahora',
    next: 'luego',
    nextIs: (label) => `Luego: ${label}`,
    done: 'hecha',
    toCome: 'por hacer',
    skipped: 'saltada',
    again: 'otra vez',
    reference: 'referencia',
    powerAt: (factor) => `Potencia según ${factor.toLowerCase()}`,
    atLeast: 'al menos',
  },
  question: {
    asked: {
      'is-fan-on': ['¿Funciona el', 'ventilador?'],
      unsettled: ['No se queda', 'quieto.'],
      unassigned: ['¿De qué', 'prueba es?'],
    },
    isFanOn: 'No gira nada. ¿Está encendido el ventilador?',
    unsettled: 'No se queda quieto. ¿Tomar la media, saltar esta prueba o esperar?',
    unassigned: (trial) =>
      `La medida ${trial} está quieta, pero ninguna prueba la pidió. ¿De qué prueba es?`,
    onLaptop: 'Responde en el portátil',
    above: 'Responde arriba',
    yesItRuns: 'Sí, funciona',
    noItIsOff: 'No, está apagado',
    average: 'Toma la media',
    skip: 'Salta esta prueba',
    wait: 'Sigue esperando',
    leaveIt: 'Déjala sin prueba',
    giveTo: (label) => `Era ${label}`,
  },
  doubt: {
    'far-from-others': (trial, percent) =>
      `La medida ${trial} está a ${percent} de sus repeticiones. ¿Era correcto el ajuste?`,
    'wind-drift': (trial, percent) =>
      `En la medida ${trial} el viento varió un ${percent}. ¿Se ha movido el ventilador?`,
    'power-drift': (trial, percent, isLess) =>
      `Hasta la medida ${trial}, la potencia con los mismos ajustes ha ${isLess ? 'bajado' : 'subido'} un ${percent}. Algo es distinto.`,
  },
  answer: esAnswer,
  sentence: esSentence,
  page: {
    simulated: 'SIMULADO · SIN PLACA · ',
    simulatedSpoken: 'Simulado. Sin placa.',
    replay: 'REPRODUCCIÓN · NO SE REGISTRA NADA',
    replaySimulated: 'REPRODUCCIÓN · SIMULADO · NO SE REGISTRA NADA',
    replaySpoken: 'Reproducción de una sesión anterior. No se registra nada.',
    replaySimulatedSpoken: 'Reproducción de una sesión simulada. No se registra nada.',
    watchingOnly: 'Solo para mirar.',
    lastLogged: 'última guardada',
    soFar: 'por ahora',
    power: (value) => `Potencia ${value}`,
    powerUnknown: 'Potencia desconocida',
    language: 'Idioma',
    sectionNow: 'Ahora',
    sectionPlot: 'Potencia de cada medida',
    sectionSaid: 'Lo que se puede decir por ahora',
    coveredPlot: 'Tapado',
    storeStopped: 'No se puede guardar.',
    noFit: (problem) =>
      `La página y el programa no encajan (${problem}). Vuelve a cargar la página.`,
    runsDone: (count, all) => `${count} de ${all} pruebas hechas.`,
    markAt: (label, results) => `${label}: ${results}`,
  },
  voice: {
    unit: { '°': 'grados', mm: 'milímetros', cm: 'centímetros', m: 'metros', Ω: 'ohmios', V: 'voltios' },
    power: (value, prefix) => `${value} ${WATT[prefix]}${value === '1' ? '' : 's'}`,
    logged: (power) => `Quieto. ${power}. Apaga el ventilador.`,
    loggedByHand: (power) => `Guardado. ${power}. Apaga el ventilador.`,
    didNotTurn: 'Guardado. No ha girado. Apaga el ventilador.',
    disturbed: 'Un golpe. Espera otra vez.',
    unplugged: 'Placa desenchufada. Mete el cable.',
    finished: 'Todo está medido.',
    notSaved: 'No se puede guardar. Mira el portátil.',
    touchToHear: 'El sonido está puesto. Haz clic una vez para oírlo.',
    noVoice: 'Este aparato no tiene voz. Las palabras están en la página.',
    otherVoice: (name) => `Aquí no hay voz en español: lee ${name}.`,
    on: 'Voz puesta',
    off: 'Voz quitada',
  },
};

function bladesOf(count: number): string {
  return count === 1 ? '1 aspa' : `${count} aspas`;
}
