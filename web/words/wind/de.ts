import type { WindWords } from '../wind-words.ts';

export const deWind: WindWords = {
  share: (percent) => `${percent} der Leistung des Windes`,
  offered: (power) => `Der Wind trug ${power} durch den Kreis, den die Flügel ziehen.`,
  betz: (percent) => `Kein Rotor kann mehr als ${percent} nehmen: Die Luft muss auch wieder weg.`,
  beyond: (percent) =>
    `Mehr als ${percent} schafft kein Rotor. Prüf die Einheiten (mA oder A?), den Radius und wo der Wind gemessen wird.`,
  ideal: (percent) =>
    `Bei dieser Drehzahl nimmt auch ein perfekter Rotor höchstens ${percent}: Die Luft dahinter dreht sich mit.`,
  most: (cause, percent) => `Am meisten zu diesem ±: ${cause}, ${percent}.`,
  cause: {
    power: 'Leistung',
    'air density': 'wie schwer die Luft ist',
    'rotor radius': 'Größe des Rotors',
    'scatter of the wind': 'Streuung der Windmessung',
    anemometer: 'der Windmesser',
    gusts: 'Böen',
    'place of the anemometer': 'Wind an seinem Platz und am Rotor',
  },
  gap: {
    anemometer: 'wie gut der Windmesser ist',
    'wind across the rotor': 'ob der ganze Rotor den gemessenen Wind bekommt',
  },
  why: {
    'no power': 'Ohne Leistung gibt es nichts mit dem Wind zu vergleichen.',
    'no wind reading': 'In dieser Messung wurde der Wind nicht gemessen, also ist seine Leistung nicht bekannt.',
    'too little wind': 'Der Windmesser drehte sich kaum: Was er zeigte, sagt nichts.',
    'rotor not described': 'Welcher Teil der Leistung des Windes ist das? Sag, wie groß der Rotor ist.',
    'blade length without a number': 'Der Plan nennt die Flügellängen, ohne zu sagen, wie lang sie sind.',
  },
  scale: { all: 'alles, was der Wind trägt', betz: (percent) => `${percent}: Grenze nach Betz` },
  describe: 'Rotor und Luft',
  field: {
    radius: 'Achse bis Flügelspitze, mm',
    hub: 'Achse bis zum Flügelanfang, mm',
    temperature: 'Temperatur der Luft, °C',
    pressure: 'Luftdruck hier, hPa',
    altitude: 'oder Höhe über dem Meer, m',
    humidity: 'Luftfeuchte, %',
    anemometer: 'Windmesser',
    rings: 'Wind quer über den Rotor, m/s',
    atPlace: 'und am üblichen Platz, m/s',
  },
  hint: {
    hub: 'Leer: 0. Der Anteil am Wind gilt für den ganzen Kreis.',
    lengthVaried: 'Nicht nötig: Der Plan ändert die Flügellänge.',
    altitude: 'Eines von beiden reicht.',
    humidity: 'Was leer bleibt, wird so weit gefasst, wie es sein kann.',
    heard: (value) => `Die Platine sagt ${value}, und das zählt.`,
    rings: (radii) => `Ohne Rotor: Halte den Windmesser ${radii} von der Achse.`,
    ringsFirst: 'Sag zuerst, wie groß der Rotor ist.',
  },
  anemometer: {
    unknown: 'nicht bekannt',
    vane: 'kleines Flügelrad, ±(3\u202f% + 0,1\u202fm/s)',
    cups: 'Schalen, ±(5\u202f% + 0,1\u202fm/s)',
  },
  problem: {
    needed: 'Das wird gebraucht.',
    number: 'Das ist keine Zahl.',
    between: (low, high) => `Von ${low} bis ${high}.`,
    hub: 'Die Flügel müssen weiter reichen als das.',
    rings: 'Zwei bis zwölf Zahlen, mit Leerzeichen dazwischen.',
    together: 'Beides oder keines von beiden.',
  },
  use: 'Das gilt',
};
