import type { PlanRemarkWords } from '../bench-words.ts';

const quoted = (text: string): string => `«\u202f${text}\u202f»`;

export const frRemarks: PlanRemarkWords = {
  obstacle: {
    'key-twice': (key) => `Deux choses s’appellent ${quoted(key)} dans les données. Changes-en une.`,
    'name-twice': (name) => `${quoted(name)} est là deux fois. Donne à chacun son propre nom.`,
    'group-twice': (name) =>
      `Deux groupes s’appellent ${quoted(name)}. Donne à chacun son propre nom.`,
    'one-factor': () => 'Ainsi, on ne peut changer qu’une chose. Retire les autres.',
    'nothing-to-compare': () => 'Avec un seul niveau, il n’y a rien à comparer. Ajoutes-en un.',
    'level-twice': (label) => `${quoted(label)} est deux fois dans la liste. Retires-en un.`,
    'value-twice': (label) =>
      `${quoted(label)} a le même nombre qu’un autre niveau. Change l’un des deux.`,
    'numbers-and-names': (name) =>
      `Certains niveaux de ${quoted(name)} ont un nombre, d’autres non. Donnes-en un à tous ou à aucun.`,
    'not-an-angle': () =>
      'L’angle des pales va de 0° (à plat dans leur cercle) à 90° (la tranche au vent).',
    'not-a-blade-count': () => 'Le nombre de pales est un nombre entier, à partir de 1.',
    'not-a-length': () => 'Une longueur est plus grande que 0.',
    'base-unknown': (name) =>
      `Le niveau où reste ${quoted(name)} n’est pas dans sa liste. Choisis-en un autre.`,
    'reference-incomplete': () => 'Choisis un niveau de chaque chose pour la référence.',
    'reference-unknown': (name) =>
      `Le niveau de la référence n’est pas dans la liste de ${quoted(name)}. Choisis-en un autre.`,
    'too-many-runs': (count) =>
      `Cela ferait ${count} essais, plus qu’un plan ne peut en avoir. Retire des niveaux, des tours ou des mesures.`,
    'names-too-long': () => 'Les noms sont trop longs ensemble. Raccourcis-en quelques-uns.',
  },
  warning: {
    'listed-order': () =>
      'Dans l’ordre écrit, tout ce qui change peu à peu (une lampe qui chauffe, un ventilateur qui faiblit) a l’air d’un effet du niveau. Un ordre au hasard les sépare.',
    'one-round': () =>
      'Avec un seul tour, personne ne sait si les pales se règlent deux fois pareil. Deux tours le montrent, trois encore mieux.',
    'two-levels': (name) =>
      `Deux niveaux de ${quoted(name)} ne peuvent pas en montrer un meilleur entre eux. Trois ou plus, si.`,
  },
};
