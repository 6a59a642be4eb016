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
    'correction of the wind': 'womit der Wind berichtigt wurde',
  },
  gustsFrom: {
    samples: 'Böen sind so darin, wie der Windmesser sie gemessen hat.',
    'slow wind meter':
      'Böen sind so angesetzt, wie sie bei einem Ventilator üblich sind: Der Windmesser gibt zu wenige neue Zahlen in der Sekunde, um sie zu sehen.',
    usual: 'Böen sind so angesetzt, wie sie bei einem Ventilator üblich sind.',
  },
  gap: {
    anemometer: 'wie gut der Windmesser ist',
    'wind across the rotor': 'ob der ganze Rotor den gemessenen Wind bekommt',
    correction: 'wie gut die Berichtigung des Winds bekannt ist',
  },
  why: {
    'no power': 'Ohne Leistung gibt es nichts mit dem Wind zu vergleichen.',
    'no wind reading': 'In dieser Messung wurde der Wind nicht gemessen, also ist seine Leistung nicht bekannt.',
    'too little wind': 'Der Windmesser drehte sich kaum: Was er zeigte, sagt nichts.',
    'rotor not described': 'Welcher Teil der Leistung des Windes ist das? Sag, wie groß der Rotor ist.',
    'blade length without a number': 'Der Plan nennt die Flügellängen, ohne zu sagen, wie lang sie sind.',
  },
  scale: { all: 'alles, was der Wind trägt', betz: (percent) => `${percent}: Grenze nach Betz` },
  turned: {
    channel: (turns) => `Der Rotor drehte ${turns}-mal je Minute, wie das Board es gelesen hat.`,
    ripple: (turns) => `Der Rotor drehte ${turns}-mal je Minute: Das ist an der Welligkeit der Spannung zu hören.`,
    generator: (turns) => `Der Rotor drehte ${turns}-mal je Minute, nach den Volt des Generators.`,
  },
  tips: (times) => `Seine Flügelspitzen liefen ${times}-mal so schnell wie der Wind.`,
  noRipple: {
    'below step': () =>
      'Die Welligkeit der Spannung ist kleiner als eine Stufe der Messwerte, also sagt sie keine Drehzahl.',
    'rate too low': (rate) =>
      `Die Welligkeit der Spannung sagt keine Drehzahl: Sie ist schneller als die Hälfte von ${rate} Werten je Sekunde.`,
    'no line': (rate) =>
      `Im Rauschen der Spannung sticht keine Welle hervor (${rate} Werte je Sekunde), also sagt sie keine Drehzahl.`,
    'ripples not said': () =>
      'Die Spannung ist wellig. Sag unter „Rotor und Luft“, wie viele Wellen eine Umdrehung hat, dann ist die Drehzahl bekannt.',
    mains: () => 'Die Spannung schwankt im Takt des Stromnetzes, also sagt das keine Drehzahl.',
    folded: (rate) =>
      `Die Welle der Spannung kann eine schnellere sein, als ${rate} Werte je Sekunde zeigen können. Mit angepasstem Generator, oder wenn Wind und Radius bekannt sind, ließe es sich sagen.`,
    several: () =>
      'Die Spannung hat mehrere Wellen, die nicht zu derselben Drehzahl passen, also sagt sie keine. Mit angepasstem Generator ließe es sich sagen.',
    elsewhere: () =>
      'Die Welle der Spannung passt nicht zu den Volt des Generators. Prüf die Zahl der Wellen je Umdrehung und den Generator.',
  },
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
    blades: 'Zahl der Flügel',
    chord: 'Breite eines Flügels, mm',
    angle: 'Flügelwinkel, °',
    wind: 'Wind, m/s',
    jet: 'Breite des Ventilatorwinds, mm',
    emf: 'Generator: Volt bei 1000 Umdrehungen je Minute',
    winding: 'Seine Wicklung, Ω',
    ripples: 'Wellen der Spannung je Umdrehung',
    friction: 'Was die Welle gerade dreht, mN·m',
    loadResistance: 'Last: ein Widerstand mit, Ω',
    lampVoltage: 'oder eine Lampe für, V',
    lampCurrent: 'und, A',
  },
  hint: {
    hub: 'Leer: 0. Der Anteil am Wind gilt für den ganzen Kreis.',
    lengthVaried: 'Nicht nötig: Der Plan ändert die Flügellänge.',
    altitude: 'Eines von beiden reicht.',
    humidity: 'Was leer bleibt, wird so weit gefasst, wie es sein kann.',
    heard: (value) => `Die Platine sagt ${value}, und das zählt.`,
    rings: (radii) => `Ohne Rotor: Halte den Windmesser ${radii} von der Achse.`,
    ringsFirst: 'Sag zuerst, wie groß der Rotor ist.',
    wind: 'Nicht nötig, wo ein Windmesser abgelesen wird.',
    emf: 'Ohne Flügel und Last gedreht: 2,1 V bei 1000 Umdrehungen sind 2,1.',
    ripples: 'Ein kleiner Motor mit drei Nuten: 6. Ohne das kann auch ein schnelles Board die Drehzahl nicht sagen.',
    friction: 'Ohne Flügel: Gramm am Faden × mm seines Radius ÷ 100.',
    load: 'Leer: Volt durch Ampere der Messungen.',
    fitted: (value) => `An Ablesungen angepasst: ${value}, und das zählt.`,
    fittedLamp: 'Eine Lampe wurde an Ablesungen angepasst, und das zählt.',
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
    whole: 'Eine ganze Zahl.',
    disc: 'So viele Flügel dieser Breite bedecken mehr als den Kreis.',
    oneLoad: 'Ein Widerstand oder eine Lampe, nicht beides.',
    oneAir: 'Der Druck oder die Höhe, nicht beides.',
    jet: 'Ein Windstrahl, der nicht breiter ist als die Nabe, trifft keinen Flügel.',
  },
  forWhy: 'Für die Seite „Warum“: Alles darf leer bleiben und wird dann so weit gefasst, wie es sein kann.',
  use: 'Das gilt',
};
