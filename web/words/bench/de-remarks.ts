import type { PlanRemarkWords } from '../bench-words.ts';

export const deRemarks: PlanRemarkWords = {
  obstacle: {
    'key-twice': (key) => `„${key}“ heißen zwei in den Daten. Gib einem einen anderen Namen.`,
    'name-twice': (name) => `„${name}“ gibt es zweimal. Gib jedem einen eigenen Namen.`,
    'group-twice': (name) => `Zwei Gruppen heißen „${name}“. Gib jeder einen eigenen Namen.`,
    'one-factor': () => 'So lässt sich nur eines ändern. Nimm das andere heraus.',
    'nothing-to-compare': () => 'Mit nur einer Stufe gibt es nichts zu vergleichen. Füg eine hinzu.',
    'level-twice': (label) => `„${label}“ steht zweimal da. Nimm eines heraus.`,
    'value-twice': (label) => `„${label}“ hat dieselbe Zahl wie eine andere Stufe. Ändere eine.`,
    'numbers-and-names': (name) =>
      `Bei „${name}“ haben manche Stufen eine Zahl und manche keine. Gib allen eine oder keiner.`,
    'not-an-angle': () =>
      'Ein Flügelwinkel geht von 0° (flach in der Drehebene) bis 90° (mit der Kante zum Wind).',
    'not-a-blade-count': () => 'Die Zahl der Flügel ist eine ganze Zahl ab 1.',
    'not-a-length': () => 'Eine Länge ist größer als 0.',
    'base-unknown': (name) =>
      `Die Stufe, auf der „${name}“ sonst bleibt, ist nicht dabei. Wähl eine andere.`,
    'reference-incomplete': () => 'Wähl für den Vergleich von allem eine Stufe.',
    'reference-unknown': (name) =>
      `Die Stufe des Vergleichs ist bei „${name}“ nicht dabei. Wähl eine andere.`,
    'too-many-runs': (count) =>
      `Das wären ${count} Durchgänge, mehr als ein Plan haben kann. Nimm Stufen, Runden oder Messungen heraus.`,
    'names-too-long': () => 'Die Namen sind zusammen zu lang. Kürze einige.',
  },
  warning: {
    'listed-order': () =>
      'In der aufgeschriebenen Reihenfolge sieht alles, was kriecht (eine Lampe wird warm, der Ventilator langsamer), wie eine Wirkung der Stufe aus. Eine zufällige hält beides auseinander.',
    'one-round': () =>
      'Mit einer Runde weiß niemand, wie gut sich die Flügel wieder einstellen lassen. Zwei zeigen es, drei besser.',
    'two-levels': (name) =>
      `Zwei Stufen von „${name}“ können keine beste dazwischen zeigen. Drei oder mehr schon.`,
  },
};
