/**
 * What keeps a plan from being carried out, and what weakens it: beyond the form that its schema
 * checks, what only its parts together show. One sentence each, for the person at the page.
 */
import type { Remark } from '../remark.ts';
import { isNumeric, plainName, valueOf } from './factors.ts';
import { MOST_RUNS, type Factor, type Plan } from './plan.ts';
import { runCountOf, settingsOf, runsOf } from './runs.ts';

/** A run's id that is no longer than this leaves room for the count of what is added to it. */
const LONGEST_ID = 190;

/** Empty for a plan that can be carried out. */
export function planObstacles(plan: Plan): Remark[] {
  const inParts = [
    ...plan.factors.flatMap((factor, place) => factorObstacles(factor, `factors.${place}`)),
    ...doubled(plan.factors.map(({ key }) => key)).map((place) => ({
      field: `factors.${place}.key`,
      message: `Two factors have the key “${plan.factors[place]?.key}”. Give each its own.`,
    })),
    ...doubled(plan.factors.map(({ name }) => plainName(name))).map((place) => ({
      field: `factors.${place}.name`,
      message: `Two factors are called “${plan.factors[place]?.name}”. Give each its own name.`,
    })),
    ...doubled(plan.groups.map(plainName)).map((place) => ({
      field: `groups.${place}`,
      message: `Two groups are called “${plan.groups[place]}”. Give each its own name.`,
    })),
    ...designObstacles(plan),
    ...referenceObstacles(plan),
  ];
  return inParts.length > 0 ? inParts : sizeObstacles(plan);
}

function designObstacles({ design, factors }: Plan): Remark[] {
  if (design === 'single' && factors.length > 1) {
    const message = 'Only one factor can be changed in this design. Take the others out.';
    return [{ field: 'factors.1', message }];
  }
  if (factors.some(({ levels }) => levels.length > 1)) return [];
  const message = 'One level alone leaves nothing to compare. Add another.';
  return [{ field: 'factors.0.levels', message }];
}

function referenceObstacles({ reference, factors }: Plan): Remark[] {
  if (reference === null) return [];
  if (reference.levels.length !== factors.length) {
    return [{ field: 'reference.levels', message: 'Choose one level of each factor to come back to.' }];
  }
  return reference.levels.flatMap((level, place) => {
    const factor = factors[place];
    if (factor?.levels[level] !== undefined) return [];
    const message = `The level to come back to is not in the list of “${factor?.name}”. Choose another.`;
    return [{ field: `reference.levels.${place}`, message }];
  });
}

/** Asked last: that many runs are not made to see whether their names would be too long. */
function sizeObstacles(plan: Plan): Remark[] {
  const count = runCountOf(plan);
  if (count > MOST_RUNS) {
    const message = `That would be ${grouped(count)} runs; a plan has at most ${MOST_RUNS}. Take out levels, rounds or repeats.`;
    return [{ field: 'rounds', message }];
  }
  if (runsOf(plan).every(({ id }) => id.length <= LONGEST_ID)) return [];
  return [{ field: 'factors', message: 'The names of levels, keys and groups are too long together. Shorten some.' }];
}

function factorObstacles(factor: Factor, field: string): Remark[] {
  const { levels, name } = factor;
  const at = (place: number, message: string) => ({ field: `${field}.levels.${place}`, message });
  const sameLabel = doubled(levels.map(({ label }) => plainName(label)));
  const sameValue = doubled(levels.map(valueOf)).filter((place) => !sameLabel.includes(place));
  const numbers = levels.filter(({ value }) => value !== null).length;
  const remarks = [
    ...sameLabel.map((place) =>
      at(place, `“${levels[place]?.label}” is in the list twice. Take one out.`),
    ),
    ...sameValue.map((place) =>
      at(place, `“${levels[place]?.label}” has the number of another level. Change one of them.`),
    ),
    ...levels.flatMap(({ value }, place) => {
      const message = value === null ? null : problemOf(factor, value);
      return message === null ? [] : [at(place, message)];
    }),
  ];
  if (numbers > 0 && numbers < levels.length) {
    const message = `Some levels of “${name}” have a number and some have none. Give all one, or none.`;
    remarks.push({ field: `${field}.levels`, message });
  }
  if (levels[factor.baseLevel] === undefined) {
    const message = `The level that “${name}” is held at is not in its list. Choose another.`;
    remarks.push({ field: `${field}.baseLevel`, message });
  }
  return remarks;
}

/** What can't be set on a rig; null for a value that can. */
function problemOf({ kind }: Factor, value: number): string | null {
  switch (kind) {
    case 'angle':
      return value >= 0 && value <= 90
        ? null
        : 'A blade angle is from 0° (flat in the circle the blades draw) to 90° (edge to the wind).';
    case 'blades':
      return Number.isInteger(value) && value >= 1
        ? null
        : 'The number of blades is a whole number, 1 or more.';
    case 'length':
      return value > 0 ? null : 'A length is more than 0.';
    case 'fan':
    case 'load':
    case 'own':
      return null;
  }
}

/** What a plan will not be able to tell, though it can be carried out. */
export function planWarnings(plan: Plan): Remark[] {
  const warnings: Remark[] = [];
  if (plan.order === 'listed' && settingsOf(plan).length > 1) {
    const message =
      'In the listed order anything that creeps (a warming lamp, a slowing fan) looks like an effect of the level. A random order keeps the two apart.';
    warnings.push({ field: 'order', message });
  }
  if (plan.rounds === 1) {
    const message =
      'With one round nobody can tell how well the blades are set again. Two rounds show it, three show it better.';
    warnings.push({ field: 'rounds', message });
  }
  plan.factors.forEach((factor, place) => {
    if (!isNumeric(factor) || factor.levels.length !== 2) return;
    const message = `Two levels of “${factor.name}” can't show a best one in between. Three or more can.`;
    warnings.push({ field: `factors.${place}.levels`, message });
  });
  return warnings;
}

/** The places of what stands in a list for a second time. */
function doubled(items: readonly unknown[]): number[] {
  return items.flatMap((item, place) => (items.indexOf(item) < place ? [place] : []));
}

/** 10000 as "10 000" with narrow spaces (SI brochure, 5.4.4). */
function grouped(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, '\u202f');
}
