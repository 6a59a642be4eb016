import type { PlanRemarkWords } from '../bench-words.ts';

export const esRemarks: PlanRemarkWords = {
  obstacle: {
    'key-twice': (key) => `Dos cosas se llaman «${key}» en los datos. Cambia el nombre de una.`,
    'name-twice': (name) => `«${name}» está dos veces. Da a cada una su propio nombre.`,
    'group-twice': (name) => `Dos grupos se llaman «${name}». Da a cada uno su propio nombre.`,
    'one-factor': () => 'Así solo se puede cambiar una cosa. Quita las otras.',
    'nothing-to-compare': () => 'Con un solo nivel no hay nada que comparar. Añade otro.',
    'level-twice': (label) => `«${label}» está dos veces en la lista. Quita uno.`,
    'value-twice': (label) => `«${label}» tiene el mismo número que otro nivel. Cambia uno.`,
    'numbers-and-names': (name) =>
      `Algunos niveles de «${name}» tienen número y otros no. Da uno a todos o a ninguno.`,
    'not-an-angle': () =>
      'Un ángulo de palas va de 0° (plano en el círculo de giro) a 90° (de canto al viento).',
    'not-a-blade-count': () => 'El número de palas es un número entero, 1 o más.',
    'not-a-length': () => 'Un largo es mayor que 0.',
    'base-unknown': (name) =>
      `El nivel en que queda «${name}» no está en su lista. Elige otro.`,
    'reference-incomplete': () => 'Elige un nivel de cada cosa para la referencia.',
    'reference-unknown': (name) =>
      `El nivel de la referencia no está en la lista de «${name}». Elige otro.`,
    'too-many-runs': (count) =>
      `Serían ${count} pruebas, más de las que caben en un plan. Quita niveles, rondas o repeticiones.`,
    'names-too-long': () => 'Los nombres juntos son demasiado largos. Acorta algunos.',
  },
  warning: {
    'listed-order': () =>
      'En el orden escrito, todo lo que cambia poco a poco (una lámpara que se calienta, un ventilador que se frena) parece efecto del nivel. Un orden al azar los separa.',
    'one-round': () =>
      'Con una ronda nadie sabe si las palas se vuelven a poner igual. Dos rondas lo muestran, tres mejor.',
    'two-levels': (name) =>
      `Dos niveles de «${name}» no pueden mostrar uno mejor en medio. Tres o más, sí.`,
  },
};
