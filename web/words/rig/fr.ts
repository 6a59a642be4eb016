import type { RigWords } from '../rig-words.ts';

export const frRig: RigWords = {
  heading: 'Regarde le montage',
  channel: { voltage_V: 'La tension', current_A: 'Le courant', windSpeed_mps: 'Le vent' },
  finding: {
    'zero-off': {
      seen: (channel, value) => `Ventilateur arrêté\u202f: ${channel} indique encore ${value}.`,
      why: 'Cela s’ajoute à chaque mesure.',
      todo: 'Remets à zéro\u202f: sous «\u202fLa carte\u202f», ou avec «\u202fMal lu\u202f? Corriger\u202f».',
    },
    'signs-differ': {
      seen: (channel) => `${channel} est négatif, l’autre non.`,
      why: 'Une paire de fils est inversée, et la puissance passe sous zéro.',
      todo: 'Arrête le ventilateur, inverse les deux fils de cette voie.',
    },
    'no-current': {
      seen: (_, value) => `${value}, mais pas de courant.`,
      why: 'La lampe ne prend rien\u202f: son circuit est ouvert, ou les fils de tension sont dans sa ligne.',
      todo: 'Arrête le ventilateur. Lampe serrée et entière\u202f? Puis les fils\u202f: courant dans la ligne, tension sur la lampe.',
    },
    'no-voltage': {
      seen: (_, value) => `${value}, mais pas de tension.`,
      why: 'Quelque chose court-circuite la lampe, ou les fils de courant sont sur elle.',
      todo: 'Arrête le ventilateur. Cherche un fil nu\u202f; courant dans la ligne, tension sur la lampe.',
    },
    stuck: {
      seen: (channel, value) => `${channel} indique toujours ${value}, alors que l’autre change.`,
      why: 'Une mesure bloquée n’est pas une mesure.',
      todo: 'Regarde ses fils et sa prise\u202f; redémarre la carte si cela reste.',
    },
    clipped: {
      seen: (channel, value) => `${channel} s’arrête à ${value}.`,
      why: 'La carte ne peut pas montrer plus\u202f: tout ce qui dépasse se ressemble.',
      todo: 'Un diviseur plus grand ou un shunt plus petit\u202f; la page de câblage le calcule.',
    },
    'wind-unread': {
      seen: () => 'Le rotor tourne et l’anémomètre n’indique pas de vent.',
      why: 'Sans le vent, personne ne distingue une meilleure pale d’un ventilateur plus fort.',
      todo: 'Tourne-t-il librement, est-il branché, est-il dans le vent\u202f?',
    },
    'wind-past-rotor': {
      seen: (_, value) => `Rien n’a encore tourné, et le vent est de ${value}.`,
      why: 'Le jet passe à côté du rotor, ou l’axe est bloqué.',
      todo: 'Ventilateur arrêté\u202f: tourne le rotor à la main. Est-il libre\u202f? Alors vise le moyeu.',
    },
    'wind-changed': {
      seen: (_, value) => `Le vent a changé de ${value} et reste ainsi.`,
      why: 'Un dixième de vent en moins, c’est un quart de puissance en moins\u202f: avant et après ne se comparent pas.',
      todo: 'Ventilateur arrêté. Est-il à sa marque, au même réglage, sans rien devant\u202f? Remets-le en place.',
    },
    'needs-flick': {
      seen: (_, value) => `Il est resté ${value} dans le vent avant de démarrer.`,
      why: 'Une poussée à la main ne se répète pas.',
      todo: 'Mains loin. Laisse-le démarrer seul, ou enregistre qu’il n’a pas tourné.',
    },
    'too-much': {
      seen: (channel, value) => `${channel}\u202f: ${value}.`,
      why: 'Aucun petit rotor ne donne cela\u202f: l’unité est fausse, par exemple mA pour A.',
      whyOfWind: 'Aucun ventilateur ne souffle ainsi\u202f: l’unité est fausse, par exemple km/h pris pour m/s.',
      todo: 'Regarde les noms et les unités des nombres de la carte.',
    },
    'beyond-wind': {
      seen: (_, value) => `La charge reçoit ${value} de la puissance du vent.`,
      why: 'Aucun rotor ne peut prendre plus de 59\u202f%\u202f: l’unité, le vent ou la taille du rotor est fausse.',
      todo: 'Vérifie mA et A, la place de l’anémomètre, et le rayon sous «\u202fRotor et air\u202f».',
    },
    'mains-hum': {
      seen: (_, value) => `Un ronflement du secteur à ${value} est dans la tension.`,
      why: 'Il fait trembler des mesures qui sont calmes.',
      todo: 'Éloigne les fils du câble du ventilateur, torsade-les par paires, courts.',
    },
  },
  meant: 'C’est voulu',
};
