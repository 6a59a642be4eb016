import type { FitWords } from '../fit-words.ts';

export const esFit: FitWords = {
  open: 'Ajustar al montaje',
  heading: { generator: 'El generador', lamp: 'La lámpara' },
  how: {
    generator:
      'Quita las palas antes de hacer girar un eje a mano o con otro motor; aparta pelo y mangas. Lee vueltas, voltios y miliamperios con cargas distintas, o hazlo girar sin carga.',
    lamp: 'Lee voltios y miliamperios en la lámpara, desde que apenas brilla hasta que brilla bien. Se calienta mucho: deja que se enfríe antes de tocarla.',
  },
  speed: 'La velocidad del rotor',
  speeds: {
    read: 'se leyó cada vez',
    held: 'no se leyó, pero se mantuvo igual',
    free: 'no se leyó, y bajó con la carga',
  },
  column: { speed: 'r/min', volts: 'V', amps: 'mA' },
  cell: (row, column) => `Lectura ${row}, ${column}`,
  take: 'Tomarlas de las pruebas',
  taken: (trials, passedOver) =>
    passedOver === 0
      ? `Tomadas de las pruebas: ${trials}.`
      : `Tomadas de las pruebas: ${trials}. Pasadas por alto, por otro ajuste u otro viento: ${passedOver}.`,
  none: {
    'no trials': 'En ninguna prueba se leyeron voltios y amperios mientras giraba.',
    'load varied': 'El plan pone cargas distintas: juntas no son una lámpara.',
    'one load': 'La carga fue la misma en todas las pruebas. Hacen falta al menos dos cargas con el mismo viento.',
  },
  emf: (volts) => `${volts} a 1000 vueltas por minuto.`,
  winding: (ohms) => `El bobinado tiene ${ohms}.`,
  windingAtMost: (ohms) =>
    `El bobinado tiene como mucho ${ohms}: la velocidad bajó con la carga, y eso también está dentro.`,
  unloaded: (volts) => `Sin carga daría aquí ${volts}.`,
  exponent: (power) =>
    `Su corriente va con la tensión elevada a ${power}; una lámpara corriente tiene cerca de 0,55.`,
  lampAt: (volts, amperes) => `A ${volts} toma ${amperes}.`,
  resistor: 'Su corriente va igual que la tensión: es una simple resistencia.',
  leftOut: (readings) => `Dejadas fuera, porque el filamento estaba demasiado frío: ${readings}.`,
  from: (readings) => `Lecturas: ${readings}.`,
  scatter: (most) => `Se apartan de la línea como mucho ${most}.`,
  gap: {
    'two currents': 'Faltan: dos lecturas con cargas distintas.',
    'two voltages': 'Faltan: dos lecturas a tensiones distintas.',
    'a speed': 'Falta: una lectura mientras gira.',
    'same speed': 'Esto no encaja con un generador: más corriente y aun así más voltios. Mira las velocidades y los números.',
    'speed for the constant': 'Los voltios a 1000 vueltas no se pueden saber sin la velocidad.',
    'speed for the winding': 'Los ohmios del bobinado no se pueden saber sin la velocidad. De esto no se puede usar nada.',
    'a load': 'Los ohmios del bobinado no se pueden saber sin carga.',
    'one more': 'Falta: una lectura más, para ver cómo de seguro es.',
    'wider apart': 'Esto aún no es seguro. Haz lecturas más separadas, o más lecturas.',
    'no filament': 'Esto no es una lámpara de filamento. ¿Es un diodo luminoso, o hay un número mal?',
  },
  needed: 'Esto hace falta.',
  between: (low, high) => `De ${low} a ${high}.`,
  use: 'Usar esto',
  leave: 'No usarlo más',
  inUse: 'En uso: la página «Por qué» cuenta con ello.',
  otherInUse: 'Están en uso otras lecturas.',
  clear: 'Vaciar la tabla',
  axis: { behind: 'voltios antes del bobinado', speed: 'r/min', volts: 'voltios', amps: 'miliamperios' },
  picture: 'Puntos: lo leído. Línea: lo ajustado.',
};
