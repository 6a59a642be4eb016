import type { TemplateWords } from '#core/experiment/plan/templates.ts';

export const deTemplates: TemplateWords = {
  question: {
    angle: 'Welcher Flügelwinkel bringt am meisten Leistung?',
    length: 'Welche Flügellänge bringt am meisten Leistung?',
    blades: 'Wie viele Flügel bringen am meisten Leistung?',
  },
  factor: { angle: 'Flügelwinkel', length: 'Flügellänge', blades: 'Zahl der Flügel' },
  distance: 'Ventilator bis Rotor',
  fan: { name: 'Ventilatorstufe', value: 'mittel' },
  load: { name: 'Last', value: 'immer dieselbe Lampe' },
  blades: { name: 'Flügelart', value: 'flacher Karton, 30 mm breit' },
  short: 'kurz',
  medium: 'mittel',
  long: 'lang',
};
