import type { RigWords } from '../rig-words.ts';

export const deRig: RigWords = {
  heading: 'Schau den Aufbau an',
  channel: { voltage_V: 'Die Spannung', current_A: 'Der Strom', windSpeed_mps: 'Der Wind' },
  finding: {
    'zero-off': {
      seen: (channel, value) => `Bei stehendem Ventilator: ${channel} zeigt noch ${value}.`,
      why: 'Das steckt dann in jeder Messung.',
      todo: 'Auf null stellen: unter „Platine“, oder mit „Falsch abgelesen? Berichtigen“.',
    },
    'signs-differ': {
      seen: (channel) => `${channel} ist negativ, das andere nicht.`,
      why: 'Ein Kabelpaar ist vertauscht, so wird die Leistung kleiner als null.',
      todo: 'Ventilator aus, die beiden Kabel dieses Kanals tauschen.',
    },
    'no-current': {
      seen: (_, value) => `${value}, aber kein Strom.`,
      why: 'Die Lampe nimmt nichts: Ihr Stromkreis ist offen, oder die Spannungskabel liegen in ihrer Leitung.',
      todo: 'Ventilator aus. Sitzt die Lampe fest, ist sie heil? Dann die Kabel: Strom in der Leitung, Spannung an der Lampe.',
    },
    'no-voltage': {
      seen: (_, value) => `${value}, aber keine Spannung.`,
      why: 'Etwas überbrückt die Lampe, oder die Stromkabel liegen an ihr.',
      todo: 'Ventilator aus. Suche blanken Draht; Strom in der Leitung, Spannung an der Lampe.',
    },
    stuck: {
      seen: (channel, value) => `${channel} zeigt immer ${value}, während sich das andere ändert.`,
      why: 'Was hängt, ist keine Messung.',
      todo: 'Sieh nach Kabel und Stecker; bleibt es so, starte die Platine neu.',
    },
    clipped: {
      seen: (channel, value) => `${channel} bleibt bei ${value} stehen.`,
      why: 'Mehr kann die Platine nicht zeigen: Alles darüber sieht gleich aus.',
      todo: 'Größerer Teiler oder kleinerer Shunt; die Seite „Verdrahtung“ rechnet es aus.',
    },
    'wind-unread': {
      seen: () => 'Der Rotor dreht sich, und der Windmesser zeigt nichts.',
      why: 'Ohne Wind weiß niemand, ob der Flügel besser ist oder der Ventilator stärker.',
      todo: 'Dreht er leicht, ist er eingesteckt, steht er im Wind?',
    },
    'wind-past-rotor': {
      seen: (_, value) => `Noch hat sich nichts gedreht, obwohl der Wind ${value} hat.`,
      why: 'Der Strahl geht am Rotor vorbei, oder die Welle klemmt.',
      todo: 'Ventilator aus: Dreh den Rotor von Hand. Läuft er leicht? Dann ziele auf die Nabe.',
    },
    'wind-changed': {
      seen: (_, value) => `Der Wind hat sich um ${value} geändert, und dabei bleibt es.`,
      why: 'Ein Zehntel weniger Wind ist ein Viertel weniger Leistung: vorher und nachher sind nicht zu vergleichen.',
      todo: 'Ventilator aus. Steht er an seiner Marke, auf derselben Stufe, und nichts davor? Stell ihn zurück.',
    },
    'needs-flick': {
      seen: (_, value) => `Er stand ${value} im Wind, bevor er anlief.`,
      why: 'Ein Schubs von Hand lässt sich nicht wiederholen.',
      todo: 'Hände weg. Lass ihn von selbst anlaufen, oder speichere, dass er sich nicht drehte.',
    },
    'too-much': {
      seen: (channel, value) => `${channel}: ${value}.`,
      why: 'So viel gibt kein kleiner Rotor: Die Einheit stimmt nicht, zum Beispiel mA als A.',
      whyOfWind: 'So bläst kein Ventilator: Die Einheit stimmt nicht, zum Beispiel km/h als m/s.',
      todo: 'Sieh nach Namen und Einheiten der Zahlen der Platine.',
    },
    'beyond-wind': {
      seen: (_, value) => `Beim Verbraucher kommen ${value} der Windleistung an.`,
      why: 'Kein Rotor nimmt mehr als 59 %: Einheit, Wind oder Rotorgröße stimmt nicht.',
      todo: 'Prüfe mA und A, den Platz des Windmessers und den Radius unter „Rotor und Luft“.',
    },
    'mains-hum': {
      seen: (_, value) => `In der Spannung brummt das Netz mit ${value}.`,
      why: 'Ruhige Werte zittern davon.',
      todo: 'Kabel weg vom Kabel des Ventilators, paarweise verdrillt und kurz.',
    },
  },
  meant: 'Das ist so gewollt',
};
