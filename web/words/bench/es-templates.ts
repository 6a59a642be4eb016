import type { TemplateWords } from '#core/experiment/plan/templates.ts';

export const esTemplates: TemplateWords = {
  question: {
    angle: '¿Qué ángulo de palas da más potencia?',
    length: '¿Qué largo de palas da más potencia?',
    blades: '¿Cuántas palas dan más potencia?',
  },
  factor: { angle: 'Ángulo de palas', length: 'Largo de palas', blades: 'Número de palas' },
  distance: 'Del ventilador al rotor',
  fan: { name: 'Nivel del ventilador', value: 'medio' },
  load: { name: 'Carga', value: 'siempre la misma lámpara' },
  blades: { name: 'Tipo de palas', value: 'cartón plano, 30 mm de ancho' },
  short: 'corta',
  medium: 'media',
  long: 'larga',
};
