/** What can be said of a plan, by kind, so that a page may say it in its own language. */
import type { Remark } from '../remark.ts';

type Sentence = (about: string) => string;

/** What keeps a plan from being carried out. `about` is a name, or a number. */
export const OBSTACLES = {
  'key-twice': (key) => `Two factors have the key “${key}”. Give each its own.`,
  'name-twice': (name) => `Two factors are called “${name}”. Give each its own name.`,
  'group-twice': (name) => `Two groups are called “${name}”. Give each its own name.`,
  'one-factor': () => 'Only one factor can be changed in this design. Take the others out.',
  'nothing-to-compare': () => 'One level alone leaves nothing to compare. Add another.',
  'level-twice': (label) => `“${label}” is in the list twice. Take one out.`,
  'value-twice': (label) => `“${label}” has the number of another level. Change one of them.`,
  'numbers-and-names': (name) =>
    `Some levels of “${name}” have a number and some have none. Give all one, or none.`,
  'not-an-angle': () =>
    'A blade angle is from 0° (flat in the circle the blades draw) to 90° (edge to the wind).',
  'not-a-blade-count': () => 'The number of blades is a whole number, 1 or more.',
  'not-a-length': () => 'A length is more than 0.',
  'base-unknown': (name) =>
    `The level that “${name}” is held at is not in its list. Choose another.`,
  'reference-incomplete': () => 'Choose one level of each factor to come back to.',
  'reference-unknown': (name) =>
    `The level to come back to is not in the list of “${name}”. Choose another.`,
  'too-many-runs': (count) =>
    `That would be ${count} runs, more than a plan can have. Take out levels, rounds or repeats.`,
  'names-too-long': () =>
    'The names of levels, keys and groups are too long together. Shorten some.',
} as const satisfies Record<string, Sentence>;

/** What a plan will not be able to tell, though it can be carried out. */
export const WARNINGS = {
  'listed-order': () =>
    'In the listed order anything that creeps (a warming lamp, a slowing fan) looks like an effect of the level. A random order keeps the two apart.',
  'one-round': () =>
    'With one round nobody can tell how well the blades are set again. Two rounds show it, three show it better.',
  'two-levels': (name) =>
    `Two levels of “${name}” can’t show a best one in between. Three or more can.`,
} as const satisfies Record<string, Sentence>;

export type Obstacle = keyof typeof OBSTACLES;
export type Warning = keyof typeof WARNINGS;

export interface PlanRemark<Kind extends Obstacle | Warning> extends Remark {
  readonly kind: Kind;
  /** The name or number that it is about; "" where there is none. */
  readonly about: string;
}

export function obstacle(field: string, kind: Obstacle, about = ''): PlanRemark<Obstacle> {
  return { field, kind, about, message: OBSTACLES[kind](about) };
}

export function warning(field: string, kind: Warning, about = ''): PlanRemark<Warning> {
  return { field, kind, about, message: WARNINGS[kind](about) };
}
