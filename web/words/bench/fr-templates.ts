import type { TemplateWords } from '#core/experiment/plan/templates.ts';

export const frTemplates: TemplateWords = {
  question: {
    angle: 'Quel angle des pales donne le plus de puissance\u202f?',
    length: 'Quelle longueur des pales donne le plus de puissance\u202f?',
    blades: 'Combien de pales donnent le plus de puissance\u202f?',
  },
  factor: { angle: 'Angle des pales', length: 'Longueur des pales', blades: 'Nombre de pales' },
  distance: 'Du ventilateur au rotor',
  fan: { name: 'Réglage du ventilateur', value: 'moyen' },
  load: { name: 'Charge', value: 'toujours la même lampe' },
  blades: { name: 'Type de pales', value: 'carton plat, 30 mm de large' },
  short: 'courte',
  medium: 'moyenne',
  long: 'longue',
};
