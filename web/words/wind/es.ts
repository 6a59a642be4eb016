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
  },
  gap: {
    anemometer: 'lo bueno que es el medidor de viento',
    'wind across the rotor': 'si todo el rotor recibe el viento que se mide',
  },
  why: {
    'no power': 'Sin potencia no hay nada que comparar con el viento.',
    'no wind reading': 'En esta medida no se midió el viento, así que no se conoce su potencia.',
    'too little wind': 'El medidor de viento apenas giró: lo que marcó no dice nada.',
    'rotor not described': '¿Qué parte de la potencia del viento es? Di cómo de grande es el rotor.',
    'blade length without a number': 'El plan nombra los largos de las palas sin decir cuánto miden.',
  },
  scale: { all: 'todo lo que lleva el viento', betz: (percent) => `${percent}: límite de Betz` },
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
  },
  hint: {
    hub: 'Vacío: 0. La parte del viento es la de todo el círculo.',
    lengthVaried: 'No hace falta: el plan cambia el largo de las palas.',
    altitude: 'Basta con uno de los dos.',
    humidity: 'Lo que queda vacío se toma tan amplio como puede ser.',
    heard: (value) => `La placa dice ${value}, y eso cuenta.`,
    rings: (radii) => `Con el rotor quitado, pon el medidor de viento a ${radii} del eje.`,
    ringsFirst: 'Primero di cómo de grande es el rotor.',
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
  },
  use: 'Usar esto',
};
