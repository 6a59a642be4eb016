import type { RigWords } from '../rig-words.ts';

export const esRig: RigWords = {
  heading: 'Mira el montaje',
  channel: { voltage_V: 'La tensión', current_A: 'La corriente', windSpeed_mps: 'El viento' },
  finding: {
    'zero-off': {
      seen: (channel, value) => `Con el ventilador parado: ${channel} aún marca ${value}.`,
      why: 'Eso se suma a cada lectura.',
      todo: 'Ponla a cero: en «La placa», o con «¿Mal leído? Corrígelo».',
    },
    'signs-differ': {
      seen: (channel) => `${channel} es negativa, la otra no.`,
      why: 'Un par de cables está cambiado y la potencia sale menor que cero.',
      todo: 'Para el ventilador y cambia los dos cables de ese canal.',
    },
    'no-current': {
      seen: (_, value) => `${value}, pero sin corriente.`,
      why: 'La lámpara no toma nada: su circuito está abierto, o los cables de tensión están en su línea.',
      todo: 'Para el ventilador. ¿Lámpara firme y entera? Luego los cables: corriente en la línea, tensión en la lámpara.',
    },
    'no-voltage': {
      seen: (_, value) => `${value}, pero sin tensión.`,
      why: 'Algo puentea la lámpara, o los cables de corriente están en ella.',
      todo: 'Para el ventilador. Busca un hilo pelado; corriente en la línea, tensión en la lámpara.',
    },
    stuck: {
      seen: (channel, value) => `${channel} marca siempre ${value}, mientras la otra cambia.`,
      why: 'Una lectura que se cuelga no es una lectura.',
      todo: 'Mira sus cables y su enchufe; si sigue, reinicia la placa.',
    },
    clipped: {
      seen: (channel, value) => `${channel} se queda en ${value}.`,
      why: 'La placa no puede mostrar más: todo lo de arriba se ve igual.',
      todo: 'Un divisor mayor o una resistencia menor; la página de cableado lo calcula.',
    },
    'wind-unread': {
      seen: () => 'El rotor gira y el anemómetro no marca viento.',
      why: 'Sin viento nadie distingue una pala mejor de un ventilador más fuerte.',
      todo: '¿Gira suelto, está enchufado, está en el viento?',
    },
    'wind-past-rotor': {
      seen: (_, value) => `Aún no ha girado nada, y el viento es de ${value}.`,
      why: 'El chorro pasa al lado del rotor, o el eje está atascado.',
      todo: 'Ventilador parado: gira el rotor a mano. ¿Va suelto? Luego apunta al buje.',
    },
    'wind-changed': {
      seen: (_, value) => `El viento ha cambiado un ${value} y sigue así.`,
      why: 'Un décimo menos de viento es un cuarto menos de potencia: lo de antes y lo de después no se puede comparar.',
      todo: 'Apaga el ventilador. ¿Está en su marca, en el mismo nivel y sin nada delante? Devuélvelo a su sitio.',
    },
    'needs-flick': {
      seen: (_, value) => `Estuvo ${value} parado en el viento antes de arrancar.`,
      why: 'Un empujón con la mano no se puede repetir.',
      todo: 'Manos fuera. Que arranque solo, o guarda que no giró.',
    },
    'too-much': {
      seen: (channel, value) => `${channel}: ${value}.`,
      why: 'Ningún rotor pequeño da eso: la unidad está mal, por ejemplo mA como A.',
      whyOfWind: 'Ningún ventilador sopla así: la unidad está mal, por ejemplo km/h como m/s.',
      todo: 'Mira los nombres y unidades de los números de la placa.',
    },
    'beyond-wind': {
      seen: (_, value) => `A la carga llega el ${value} de la potencia del viento.`,
      why: 'Ningún rotor puede tomar más del 59 %: la unidad, el viento o el tamaño del rotor está mal.',
      todo: 'Revisa mA y A, el sitio del anemómetro y el radio en «Rotor y aire».',
    },
    'mains-hum': {
      seen: (_, value) => `Hay un zumbido de la red de ${value} en la tensión.`,
      why: 'Hace temblar lecturas que están quietas.',
      todo: 'Aleja los cables del cable del ventilador, trénzalos por pares y que sean cortos.',
    },
  },
  meant: 'Es a propósito',
};
