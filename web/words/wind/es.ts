import type { WindWords } from '../wind-words.ts';

export const esWind: WindWords = {
  share: (percent) => `${percent} de la potencia del viento`,
  offered: (power) => `El viento llevaba ${power} por el círculo que trazan las palas.`,
  betz: (percent) => `Ningún rotor puede tomar más del ${percent}: el aire tiene que salir otra vez.`,
  beyond: (percent) =>
    `Más del ${percent} es imposible para cualquier rotor. Mira las unidades (¿mA o A?), el radio y dónde se mide el viento.`,
  ideal: (percent) =>
    `A esta velocidad, hasta un rotor perfecto toma como mucho el ${percent}: el aire de detrás gira.`,
  most: (cause, percent) => `La mayor parte de este ±: ${cause}, ${percent}.`,
  cause: {
    power: 'potencia',
    'air density': 'cuánto pesa el aire',
    'rotor radius': 'tamaño del rotor',
    'scatter of the wind': 'dispersión de las lecturas del viento',
    anemometer: 'el medidor de viento',
    gusts: 'ráfagas',
    'place of the anemometer': 'viento en su sitio y en el rotor',
    'correction of the wind': 'con qué se corrigió el viento',
  },
  gustsFrom: {
    samples: 'Las rachas cuentan como las midió el anemómetro.',
    'slow wind meter':
      'Las rachas cuentan como es usual con un ventilador: el anemómetro da muy pocos números nuevos por segundo para verlas.',
    usual: 'Las rachas cuentan como es usual con un ventilador.',
  },
  gap: {
    anemometer: 'lo bueno que es el medidor de viento',
    'wind across the rotor': 'si todo el rotor recibe el viento que se mide',
    correction: 'cuánto se conoce la corrección del viento',
  },
  why: {
    'no power': 'Sin potencia no hay nada que comparar con el viento.',
    'no wind reading': 'En esta medida no se midió el viento, así que no se conoce su potencia.',
    'too little wind': 'El medidor de viento apenas giró: lo que marcó no dice nada.',
    'rotor not described': '¿Qué parte de la potencia del viento es? Di cómo de grande es el rotor.',
    'blade length without a number': 'El plan nombra los largos de las palas sin decir cuánto miden.',
  },
  scale: { all: 'todo lo que lleva el viento', betz: (percent) => `${percent}: límite de Betz` },
  turned: {
    channel: (turns) => `El rotor dio ${turns} vueltas por minuto, según leyó la placa.`,
    ripple: (turns) => `El rotor dio ${turns} vueltas por minuto: se nota en el rizado de la tensión.`,
    generator: (turns) => `El rotor dio ${turns} vueltas por minuto, según los voltios del generador.`,
  },
  tips: (times) => `Sus puntas iban ${times} veces tan rápido como el viento.`,
  noRipple: {
    'below step': () =>
      'El rizado de la tensión es menor que un escalón de las lecturas, así que no dice la velocidad.',
    'rate too low': (rate) =>
      `El rizado de la tensión no dice la velocidad: es más rápido que la mitad de ${rate} lecturas por segundo.`,
    'no line': (rate) =>
      `Ningún rizado sobresale del ruido de la tensión (${rate} lecturas por segundo), así que no dice la velocidad.`,
    'ripples not said': () =>
      'La tensión tiene rizado. Di en «Rotor y aire» cuántas ondas hay en una vuelta, y se sabrá la velocidad.',
    mains: () => 'La tensión ondula como la red eléctrica, así que eso no dice la velocidad.',
    folded: (rate) =>
      `El rizado de la tensión puede ser más rápido de lo que ${rate} lecturas por segundo pueden mostrar. Con el generador ajustado, o sabiendo viento y radio, se podría saber.`,
    several: () =>
      'La tensión ondula de varias maneras que no son de una misma velocidad, así que no dice ninguna. Con el generador ajustado se podría saber.',
    elsewhere: () =>
      'El rizado de la tensión no encaja con los voltios del generador. Mira el número de ondas por vuelta, y el generador.',
  },
  describe: 'Rotor y aire',
  field: {
    radius: 'Del eje a la punta de la pala, mm',
    hub: 'Del eje al inicio de las palas, mm',
    temperature: 'Temperatura del aire, °C',
    pressure: 'Presión del aire aquí, hPa',
    altitude: 'o altura sobre el mar, m',
    humidity: 'Humedad, %',
    anemometer: 'Medidor de viento',
    rings: 'Viento a lo ancho del rotor, m/s',
    atPlace: 'y en su sitio de siempre, m/s',
    blades: 'Número de palas',
    chord: 'Ancho de una pala, mm',
    angle: 'Ángulo de las palas, °',
    wind: 'Viento, m/s',
    jet: 'Ancho del viento del ventilador, mm',
    emf: 'Generador: voltios a 1000 vueltas por minuto',
    winding: 'Su bobinado, Ω',
    ripples: 'Ondas de la tensión por vuelta',
    friction: 'Lo que apenas gira el eje, mN·m',
    loadResistance: 'Carga: una resistencia de, Ω',
    lampVoltage: 'o una lámpara de, V',
    lampCurrent: 'y, A',
  },
  hint: {
    hub: 'Vacío: 0. La parte del viento es la de todo el círculo.',
    lengthVaried: 'No hace falta: el plan cambia el largo de las palas.',
    altitude: 'Basta con uno de los dos.',
    humidity: 'Lo que queda vacío se toma tan amplio como puede ser.',
    heard: (value) => `La placa dice ${value}, y eso cuenta.`,
    rings: (radii) => `Con el rotor quitado, pon el medidor de viento a ${radii} del eje.`,
    ringsFirst: 'Primero di cómo de grande es el rotor.',
    wind: 'No hace falta si se lee un medidor de viento.',
    emf: 'Girado sin palas ni carga: 2,1 V a 1000 vueltas son 2,1.',
    ripples: 'Un motor pequeño de tres ranuras: 6. Sin esto ni una placa rápida puede decir la velocidad.',
    friction: 'Sin palas: gramos en un hilo × mm de su radio ÷ 100.',
    load: 'Vacío: voltios entre amperios de las pruebas.',
    fitted: (value) => `Ajustado a lecturas: ${value}, y eso cuenta.`,
    fittedLamp: 'Se ajustó una lámpara a lecturas, y eso cuenta.',
  },
  anemometer: {
    unknown: 'no se sabe',
    vane: 'molinete pequeño, ±(3\u202f% + 0,1\u202fm/s)',
    cups: 'cazoletas, ±(5\u202f% + 0,1\u202fm/s)',
  },
  problem: {
    needed: 'Esto hace falta.',
    number: 'Esto no es un número.',
    between: (low, high) => `De ${low} a ${high}.`,
    hub: 'Las palas tienen que llegar más lejos que esto.',
    rings: 'De dos a doce números, con espacios entre ellos.',
    together: 'Hacen falta los dos, o ninguno.',
    whole: 'Un número entero.',
    disc: 'Tantas palas de este ancho cubren más que el círculo.',
    oneLoad: 'Una resistencia o una lámpara, no las dos.',
    oneAir: 'La presión o la altura, no las dos.',
    jet: 'Un chorro no más ancho que el buje no alcanza ninguna pala.',
  },
  forWhy: 'Para la página «Por qué»: todo puede quedar vacío, y se toma entonces tan ancho como puede ser.',
  use: 'Usar esto',
};
