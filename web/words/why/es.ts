import type { WhyWords } from '../why-words.ts';

export const esWhy: WhyWords = {
  title: 'Por qué',
  toBench: 'Banco',
  waiting: 'Esperando al programa.',
  working: 'Haciendo las cuentas.',
  failed: {
    what: 'No se han podido calcular las razones.',
    how: {
      'not-loaded':
        'La parte de esta página que las calcula no se ha cargado. Mira si el programa sigue en marcha y si este dispositivo llega hasta él, y prueba otra vez.',
      stumbled:
        'La parte de esta página que las calcula se ha interrumpido. Busca en «Rotor y aire» y en el plan un número que no pueda ser, y prueba otra vez. Si sigue igual, guarda la sesión como archivo y dásela, con la línea de abajo, a quien cuida del programa.',
    },
    kept: 'Nada de lo medido cambia por esto: las pruebas, la respuesta y el informe están como estaban.',
    again: 'Probar otra vez',
  },
  none: {
    'no plan': 'Todavía no hay plan, así que no se compara nada.',
    'rotor not described':
      'El modelo aún no conoce el rotor. En el puesto de medida pulsa la potencia de una prueba, luego «Rotor y aire», y di cómo es de grande.',
    'factor of your own': 'El plan cambia algo de lo que el modelo no sabe nada.',
    'levels without numbers': 'Los niveles del plan son nombres sin números, y el modelo necesita números.',
    'no wind reading': 'Lo que cambia es el ventilador, y el viento no se leyó en cada uno de sus niveles.',
    'no such rotor':
      'No hay rotor con estas medidas, o un nivel que ningún montaje puede tener. Mira el plan y «Rotor y aire».',
  },
  section: {
    plot: 'Medido y esperado',
    causes: 'Donde no coinciden',
    words: 'En palabras sencillas',
    flow: 'Adónde va la potencia',
    limits: 'Lo que el modelo no sabe',
  },
  model: 'modelo',
  measured: 'medido',
  caption:
    'Grueso: lo medido, un anillo para la media sobre sus límites del 95\u202f%. Fino: lo que espera un modelo de este montaje, una caja para el 95\u202f% de lo que puede ser, una raya para lo más probable.',
  notTried: 'sin probar',
  didNotTurn: 'no giró',
  far: {
    less: (levels) => `Menos de lo que espera el modelo: ${levels}.`,
    more: (levels) => `Más de lo que espera el modelo: ${levels}.`,
  },
  isFar: { less: 'menos', more: 'más' },
  allNear: 'Todos los niveles están donde el modelo los espera.',
  tips: (level, measured, model) =>
    `A ${level} las puntas de las palas iban ${measured} veces tan rápido como el viento; el modelo espera ${model}.`,
  nothingMeasured: 'Aún no se ha medido nada: esto es solo el modelo.',
  lookFirst: 'Encajaría con una de estas cosas. Mira primero la primera:',
  noCause: 'Ningún cambio único en lo que se dijo del montaje lo explica.',
  guess: 'Son suposiciones, no resultados.',
  cause: {
    friction: (change) => `un rozamiento ${change} veces el que se tomó`,
    load: (change) => `una carga con ${change} veces esos ohmios`,
    'wind speed': (change) => `un viento ${change} veces tan rápido`,
    'generator constant': (change) => `un generador que da ${change} veces esos voltios`,
    'winding resistance': (change) => `un bobinado con ${change} veces esos ohmios`,
    'jet narrower than the rotor': (change) => `un chorro de viento de solo ${change} veces el ancho del rotor`,
    'wind in km/h': () => 'viento leído en km/h y apuntado como m/s',
    'wind in mph': () => 'viento leído en millas por hora y apuntado como m/s',
    'diameter for radius': () => 'el ancho entero del rotor apuntado como su radio',
    'angle from the axis': () => 'ángulos medidos desde el eje y no desde el plano del rotor',
    'power in mW': () => 'potencia apuntada en mW pero tomada como W',
  },
  blades: {
    flatter: (degrees) => `palas ${degrees}° más planas de lo dicho`,
    steeper: (degrees) => `palas ${degrees}° más inclinadas de lo dicho`,
  },
  agree: (level) => `${level} dio lo máximo, y ahí lo espera también el modelo.`,
  agreeSoFar: (level, others) =>
    `${level} dio lo máximo hasta ahora, y ahí lo espera también el modelo. Todavía no se puede distinguir de ${others}.`,
  sure: (level, guesses) =>
    `De 100 suposiciones sobre lo que no se sabe con certeza, en ${guesses} gana ${level}.`,
  soInGuesses: (guesses) => `Así sale en ${guesses} de 100 suposiciones.`,
  perhaps: (measured, model) =>
    `${measured} dio lo máximo. El modelo lo espera en ${model}, pero los dos están demasiado cerca para saberlo.`,
  disagree: (measured, model) =>
    `${measured} dio lo máximo, pero el modelo lo espera en ${model}. Así que las razones del modelo quizá no valgan aquí.`,
  bestFar: (level) =>
    `Lo que dio ${level} queda fuera de lo que espera el modelo, así que sus razones quizá no valgan aquí.`,
  nothingStarts: 'En ninguno de estos niveles espera el modelo que el rotor arranque solo.',
  expects: (level) => `El modelo espera lo máximo en ${level}.`,
  compared: {
    'faster-harder': ({ best, other, speed }) =>
      `Con ${best} el rotor gira ${speed} veces tan rápido como con ${other}, y el viento no lo empuja menos.`,
    'faster-softer': ({ best, other, speed, torque }) =>
      `Con ${best} el rotor gira ${speed} veces tan rápido como con ${other}. El viento lo empuja solo ${torque} veces tan fuerte, pero la velocidad lo compensa.`,
    'slower-harder': ({ best, other, speed, torque }) =>
      `Con ${best} el rotor gira solo ${speed} veces tan rápido como con ${other}, pero el viento lo empuja ${torque} veces tan fuerte.`,
  },
  glide: ({ best, other, bestGlide, otherGlide }) =>
    `Con ${best} la sustentación de la pala es ${bestGlide} veces su resistencia al aire, con ${other} solo ${otherGlide} veces. La sustentación tira de la pala para que gire, la resistencia la frena.`,
  along: (best, other) =>
    `Con ${best} y con ${other} el aire se desliza casi a lo largo de las palas. Las planas tienen que ir más rápido para eso, como un tornillo de rosca fina da más vueltas que uno de rosca gruesa.`,
  standing: ({ best, other, torque }) =>
    `Con las palas paradas el viento empuja ${torque} veces tan fuerte con ${other} como con ${best}: ahí el rotor arranca más fácilmente y luego gira más despacio.`,
  notLongest: ({ best, longest, now, then }) =>
    `Más largo no siempre es mejor: con ${best} el modelo espera ${now}, con ${longest} solo ${then}.`,
  beyondJetAt: (levels) =>
    `Salen del viento del ventilador: ${levels}. Ahí las palas solo golpean aire quieto.`,
  starts: {
    yes: (levels) => `Arranca solo: ${levels}.`,
    perhaps: (levels) => `Puede que arranque o no, lo decide un poco de rozamiento: ${levels}.`,
    no: (levels) => `No arranca: ${levels}. Con las palas paradas, el viento empuja demasiado poco en el sentido de giro.`,
    pushed: (levels) => `No arranca, pero seguiría girando si se lanzara con la mano: ${levels}.`,
    'neither-way': (levels) =>
      `Con ${levels} el viento no empuja las palas ni en un sentido ni en el otro. Solo pueden girar si están un poco torcidas.`,
  },
  turnedAnyway: (levels) => `En la mesa sí giró, así que ahí el modelo se equivoca: ${levels}.`,
  stoodAnyway: (levels) => `En la mesa no giró, así que ahí el modelo se equivoca: ${levels}.`,
  load: {
    more: ({ load, winding, now, then }) =>
      `La carga pide demasiado: tiene ${load}, el bobinado del generador ${winding}. Con el doble de ohmios el modelo espera ${then} en vez de ${now}.`,
    less: ({ load, winding, now, then }) =>
      `La carga pide demasiado poco: tiene ${load}, el bobinado del generador ${winding}. Con la mitad de ohmios el modelo espera ${then} en vez de ${now}.`,
    same: ({ load }) => `La carga es adecuada: ni con la mitad ni con el doble de sus ${load} espera el modelo claramente más.`,
    unsure: () => 'Si otra carga daría más no se puede decir con lo que se sabe del montaje.',
  },
  length: {
    more: ({ length, now, then }) =>
      `Palas más largas deberían dar más: con un cuarto más que ${length} el modelo espera ${then} en vez de ${now}.`,
    less: ({ length, now, then }) =>
      `Palas más cortas deberían dar más: con un cuarto menos que ${length} el modelo espera ${then} en vez de ${now}.`,
    same: ({ length }) => 
      `Ni un cuarto más largas ni un cuarto más cortas que ${length} deberían dar las palas claramente más.`,
    unsure: () => 'Si palas más largas o más cortas darían más no se puede decir con lo que se sabe del montaje.',
  },
  beyondJet: 'Las palas salen del viento del ventilador: ahí solo golpean aire quieto.',
  shares: (load, winding, friction) =>
    `De 100 partes que toma el rotor, unas ${load} llegan a la carga, ${winding} calientan el bobinado del generador y ${friction} se pierden en cojinetes y escobillas.`,
  flow: {
    at: (level) => `Con ${level}`,
    row: {
      wind: 'viento en todo el círculo',
      never: 'ningún rotor puede tomarlo: el aire tiene que irse',
      left: 'se podría tomar, pero pasa de largo',
      rotor: 'toma el rotor',
      friction: 'cojinetes y escobillas',
      winding: 'calienta el bobinado',
      load: 'en la carga',
      measured: 'en la carga, medido',
    },
    larger: 'La parte del rotor, dibujada más grande',
    band: (low, high) => `${low} … ${high}`,
    ofWind: (percent) => `${percent} del viento`,
    apart: 'Lo medido queda fuera de lo que espera el modelo: sus otras partes quizá tampoco sean ciertas.',
  },
  assumed: {
    wind: 'el viento',
    'wind across the rotor': 'el viento a lo ancho del rotor',
    angle: 'el ángulo de las palas',
    blades: 'el número de palas',
    chord: 'el ancho de una pala',
    generator: 'los voltios del generador',
    winding: 'los ohmios de su bobinado',
    friction: 'el rozamiento',
    load: 'la carga',
  },
  notSaid: (what) => `No se ha dicho, así que se toma lo habitual, con todo el margen que puede tener: ${what}.`,
  fitted: {
    generator: 'los voltios del generador',
    winding: 'los ohmios de su bobinado',
    load: 'la lámpara',
  },
  fittedTo: (what) => `Ajustado a lecturas de este montaje: ${what}.`,
  limits: [
    'Esto es un modelo. Fíate más del orden de los niveles que de sus vatios.',
    'Supone un viento parejo y de frente. El de un ventilador gira y es más lento en el centro.',
    'Supone palas finas y planas, medidas una vez en otro sitio. Las gruesas, ásperas o curvas son distintas.',
  ],
};
