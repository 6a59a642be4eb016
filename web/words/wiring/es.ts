import type { WiringWords } from '../wiring-words.ts';

export const esWiring: WiringWords = {
  page: 'Circuito',
  heading: '¿Qué leerá, y con qué exactitud?',
  toBench: 'Banco',
  toWorkOut: 'Qué se calcula',
  kind: {
    divider: 'Tensión, dos resistencias',
    shunt: 'Corriente, shunt y amplificador',
    monitor: 'Las dos, módulo de medida I²C',
    meter: 'Comparar con un multímetro',
  },
  result: 'Lo que resulta',
  nothingYet: 'Todavía no hay nada que decir. Mira lo que está marcado.',
  cautions:
    'Los dibujos muestran el principio. Constrúyelo como lo dibuja docs/wiring.md, con las piezas que protegen la placa y a las personas. Solo muy baja tensión, hasta 30\u202fV: nunca la red eléctrica del enchufe, ni siquiera para medirla. Sigue las reglas de tu centro y pregunta a una persona cualificada donde no estés seguro.',
  field: {
    reference: 'Referencia del convertidor',
    referenceTolerance: 'Tolerancia de la referencia',
    bits: 'Bits del convertidor',
    partsPerStep: 'Cuentas por escalón',
    upper: 'Resistencia superior',
    upperTolerance: 'Tolerancia de la resistencia superior',
    lower: 'Resistencia inferior',
    lowerTolerance: 'Tolerancia de la resistencia inferior',
    largestVoltage: 'Tensión mayor sin la lámpara',
    sourceResistance: 'Resistencia del generador',
    shunt: 'Shunt',
    shuntTolerance: 'Tolerancia del shunt',
    amplifierGain: 'Ganancia del amplificador',
    amplifierGainTolerance: 'Tolerancia de la ganancia',
    amplifierOffset: 'Desplazamiento del amplificador',
    amplifierMargin: 'Su salida acaba antes de su alimentación por',
    largestCurrent: 'Corriente mayor',
    monitorGainTolerance: 'Tolerancia del módulo de medida',
    meterRelative: 'Exactitud del medidor, de la lectura',
    meterCounts: 'Exactitud del medidor, dígitos',
    monitorShunt: 'Shunt',
    monitorShuntTolerance: 'Tolerancia del shunt',
    presentGain: 'Ganancia que hay ahora en el sketch',
    presentOffset: 'Desplazamiento que hay ahora en el sketch',
  },
  unit: { bits: 'bits', counts: 'dígitos' },
  fault: {
    empty: ({ label, instance }) => `${label}: escribe un número, por ejemplo ${instance}.`,
    comma: ({ label, typed }) =>
      `${label}: «${typed}» tiene demasiados signos entre las cifras. Una sola coma, y ningún punto para los miles.`,
    'no-number': ({ label, typed, instance }) =>
      `${label}: «${typed}» no es un número. Escribe uno como ${instance}, sin la unidad.`,
    'not-whole': ({ label, instance }) =>
      `${label}: tiene que ser un número entero, por ejemplo ${instance}.`,
    'out-of-limits': ({ label, least, most }) => `${label}: tiene que ir de ${least} a ${most}.`,
  },
  form: {
    converter: 'El convertidor de la placa',
    board: 'Placa',
    boards: { of8bit: '8 bits, 5\u202fV', of32bit: '32 bits, 3,3\u202fV' },
    boardHint:
      'Los 5\u202fV de un puerto USB tienen una tolerancia de ±5\u202f%. El sketch envía la media de muchas conversiones, en partes de un escalón: valen donde el ruido de la señal se extiende más de un escalón.',
    resistors: 'Las dos resistencias',
    rig: 'El montaje',
    rigHint:
      'Mide la tensión mayor con un multímetro: el ventilador al máximo y la lámpara quitada.',
    shunt: 'Shunt y amplificador',
    shuntHint:
      'Sin amplificador: ganancia 1 ± 0, desplazamiento 0, margen 0. En un amplificador hecho con resistencias se suman sus tolerancias.',
    monitor: 'Shunt y módulo de medida',
    range: 'Escala en el shunt',
  },
  circuit: {
    ground: 'masa',
    upper: 'R1 superior',
    lower: 'R2 inferior',
    shunt: 'shunt',
    monitor: 'módulo',
    divider: (upper, lower) =>
      `Generador y lámpara lado a lado. Del más del generador, por la resistencia superior, ${upper}, al pin A0, y de allí por la resistencia inferior, ${lower}, a masa, que es el menos del generador.`,
    amplified: (shunt, gain) =>
      `De la lámpara, por el shunt, ${shunt}, a masa, que es el menos del generador. Un amplificador, ${gain}, lleva la tensión del shunt al pin A1.`,
    monitored: (shunt) =>
      `Del más del generador, por el shunt del módulo de medida, ${shunt}, a la lámpara; la lámpara, el menos del generador y la masa del módulo son uno. El módulo habla con la placa por SDA y SCL.`,
  },
  offer: {
    resistors: (largest) => `Resistencias que se venden, para ${largest}`,
    shunt: (largest) => `Shunt que se vende, para ${largest}`,
    over: (upper, lower) => `${upper} sobre ${lower}`,
    upTo: (series, parts, range) => `${series}: ${parts}, hasta ${range}.`,
    take: 'Tomar esto',
  },
  causes: {
    caption: 'De dónde viene la incertidumbre',
    part: 'pieza',
    limits: 'límites',
    adds: 'aporta',
    together: 'en total, en cuadrados',
    shared: (cause) => `${cause} (común)`,
  },
  sketch: {
    title: 'Para el principio del sketch',
    copy: 'Copiar',
    copied: 'Copiado',
    marked: 'Marcado: cópialo ahora',
  },
  use: {
    heading: 'Para el ± de cada medida',
    tell: 'Mi montaje es así',
    zeroed: 'Se tomó un cero con el ventilador apagado',
    kept: 'Guardado para esta placa. Vale para las medidas de esta sesión, también las de antes.',
    partsHint:
      'Lo que una placa dice de su propia calibración vale más: con las líneas para el sketch lo dice sola.',
    comparedHint:
      'Vale cuando la ganancia y el desplazamiento están en el sketch. Lo que una placa dice de su propia calibración vale más.',
  },
  said: {
    atMost: 'como mucho',
    reads: (range, step, share) =>
      `Lee hasta ${range} en escalones de ${step}. Las piezas hacen incierta cada lectura en un ${share}, siempre en la misma proporción.`,
    noTolerance: 'No se dio ninguna tolerancia, así que esto no muestra la incertidumbre de las piezas.',
    mostFrom: (cause, isShared) =>
      `Lo que más aporta: ${cause}${isShared ? ', común a tensión y corriente' : ''}. Una comparación con un multímetro ocupa su lugar.`,
    zero: (built, zeroed) =>
      `Su cero es incierto en ${built} tal como está hecho, y en ${zeroed} si se toma con el ventilador apagado.`,
    pinSees: (resistance) =>
      `Delante del pin hay ${resistance}. Los convertidores de las placas de 8 bits quieren 10\u202fkΩ o menos.`,
    load: (voltage, current, lowered, heat) =>
      `Con ${voltage} toma ${current} del generador, lo que baja su tensión un ${lowered}; las resistencias convierten ${heat} en calor.`,
    clamps: (current) =>
      `Con el generador al revés, o demasiado rápido, por los diodos de protección del pin pasan hasta ${current}.`,
    shunt: (current, voltage, heat, rating) =>
      `Con ${current} el shunt le quita ${voltage} al circuito y convierte ${heat} en calor: usa uno de ${rating} o más.`,
    floor: (current) =>
      `Por debajo de ${current} la salida del amplificador no puede seguir: esas corrientes se leen mal, y un cero tomado ahí esconde un desplazamiento.`,
    busVoltage: (limit, step, share) =>
      `Tensión: hasta ${limit} en escalones de ${step}, incierta en un ${share}.`,
    monitorPins: (limit) =>
      `Ninguno de sus pines puede recibir menos de −0,3\u202fV ni más de ${limit}, ni por un momento: comprueba primero la polaridad del generador.`,
    power: (share) =>
      `Con el divisor de esta página, la potencia es incierta en un ${share}: la referencia del convertidor sirve a los dos canales, así que su parte cuenta doble.`,
    tooSmall: (end, expected) => `Demasiado pequeño: acaba en ${end}, y esperas ${expected}.`,
    remedy: {
      divider: 'Usa una resistencia superior mayor, o una inferior menor.',
      shunt: 'Usa un shunt menor, o menos ganancia.',
      monitor: 'Elige una escala mayor, o usa un shunt menor.',
    },
    pinSeesTooMuch: (resistance) =>
      `Delante del pin hay ${resistance}: es demasiado. En el convertidor quedaría aún algo del otro canal. Usa resistencias menores en la misma proporción.`,
    clampsTooMuch: (current) =>
      `Por los diodos de protección podrían pasar ${current}. Usa una resistencia superior mayor, para que quede por debajo de 5\u202fmA.`,
  },
  compared: {
    measured: 'Qué se midió',
    quantity: { voltage: 'Tensión, en V', current: 'Corriente, en mA' },
    readings: 'Lecturas del mismo momento',
    heads: { meter: 'medidor', page: 'página', leftOver: 'resto' },
    cell: {
      meter: (pair, unit) => `Par ${pair}: medidor, en ${unit}`,
      page: (pair, unit) => `Par ${pair}: página, en ${unit}`,
    },
    onePairMore: 'Un par más',
    accuracy: 'Exactitud del medidor: ± de la lectura, y dígitos',
    accuracyHint: 'Del manual del medidor, para la escala en la que estaba.',
    present: 'En el sketch mientras lees',
    fault: {
      meter: {
        comma: 'Lectura del medidor: una sola coma, sin puntos para los miles, por ejemplo 2,31.',
        'no-number': 'Lectura del medidor: escribe el número como está allí, por ejemplo 2,31.',
      },
      page: {
        comma: 'Lectura de la página: una sola coma, sin puntos para los miles, por ejemplo 2,31.',
        'no-number': 'Lectura de la página: escribe el número como está allí, por ejemplo 2,31.',
      },
    },
    tooFew:
      'Hacen falta al menos dos pares, bien separados; tres o más se comprueban solos.',
    noLine:
      'Ninguna recta pasa por estos: las lecturas de la página tienen que ser distintas, y subir cuando suben las del medidor.',
    gain: 'ganancia',
    scattered: (times) =>
      `Los pares están ${times} veces más lejos de una recta de lo que explican sus últimas cifras. Busca un número mal leído, o lee otra vez con los dos quietos.`,
    found: (gain, share, offset, uncertainty) =>
      `Ganancia ${gain}, incierta en un ${share}. Desplazamiento ${offset}, incierto en ${uncertainty}.`,
    meterLimit: (reading, limit) =>
      `Con ${reading} el propio medidor puede fallar en ±${limit}. Ya está contado: es igual en cada par, y más pares no lo hacen menor.`,
    twoPairs: 'Dos pares están siempre en una recta. Un tercero mostraría un número mal leído.',
    holdsFor:
      'Vale para esta escala del medidor, este puerto USB y este cable: si la referencia del convertidor es la tensión del USB, compara otra vez con otro portátil.',
  },
};
