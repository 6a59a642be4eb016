/**
 * What keeps a plan from being carried out, and what weakens it: beyond the form that its schema
 * checks, what only its parts together show.
 */
import { isNumeric, plainName, valueOf } from './factors.ts';
import { MOST_RUNS, type Factor, type Plan } from './plan.ts';
import { obstacle, warning, type Obstacle, type PlanRemark, type Warning } from './remarks.ts';
import { runCountOf, settingsOf, runsOf } from './runs.ts';

/** A run's id that is no longer than this leaves room for the count of what is added to it. */
const LONGEST_ID = 190;

/** Empty for a plan that can be carried out. */
export function planObstacles(plan: Plan): PlanRemark<Obstacle>[] {
  const { factors, groups } = plan;
  const keys = factors.map(({ key }) => key);
  const names = factors.map(({ name }) => name);
  const inParts = [
    ...factors.flatMap((factor, place) => factorObstacles(factor, `factors.${place}`)),
    ...doubled(keys).map((place) => obstacle(`factors.${place}.key`, 'key-twice', keys[place])),
    ...doubled(names.map(plainName)).map((place) =>
      obstacle(`factors.${place}.name`, 'name-twice', names[place]),
    ),
    ...doubled(groups.map(plainName)).map((place) =>
      obstacle(`groups.${place}`, 'group-twice', groups[place]),
    ),
    ...designObstacles(plan),
    ...referenceObstacles(plan),
  ];
  return inParts.length > 0 ? inParts : sizeObstacles(plan);
}

function designObstacles({ design, factors }: Plan): PlanRemark<Obstacle>[] {
  if (design === 'single' && factors.length > 1) return [obstacle('factors.1', 'one-factor')];
  if (factors.some(({ levels }) => levels.length > 1)) return [];
  return [obstacle('factors.0.levels', 'nothing-to-compare')];
}

function referenceObstacles({ reference, factors }: Plan): PlanRemark<Obstacle>[] {
  if (reference === null) return [];
  if (reference.levels.length !== factors.length) {
    return [obstacle('reference.levels', 'reference-incomplete')];
  }
  return factors.flatMap(({ levels, name }, place) =>
    levels[reference.levels[place] ?? -1] === undefined
      ? [obstacle(`reference.levels.${place}`, 'reference-unknown', name)]
      : [],
  );
}

/** Asked last: that many runs are not made to see whether their names would be too long. */
function sizeObstacles(plan: Plan): PlanRemark<Obstacle>[] {
  const count = runCountOf(plan);
  if (count > MOST_RUNS) return [obstacle('rounds', 'too-many-runs', grouped(count))];
  if (runsOf(plan).every(({ id }) => id.length <= LONGEST_ID)) return [];
  return [obstacle('factors', 'names-too-long')];
}

function factorObstacles(factor: Factor, field: string): PlanRemark<Obstacle>[] {
  const { levels, name } = factor;
  const sameLabel = doubled(levels.map(({ label }) => plainName(label)));
  const sameValue = doubled(levels.map(valueOf)).filter((place) => !sameLabel.includes(place));
  const numbers = levels.filter(({ value }) => value !== null).length;
  const ofLevel = (place: number, kind: Obstacle) =>
    obstacle(`${field}.levels.${place}`, kind, levels[place]?.label);
  const remarks = [
    ...sameLabel.map((place) => ofLevel(place, 'level-twice')),
    ...sameValue.map((place) => ofLevel(place, 'value-twice')),
    ...levels.flatMap(({ value }, place) => {
      const kind = value === null ? null : problemOf(factor, value);
      return kind === null ? [] : [ofLevel(place, kind)];
    }),
  ];
  if (numbers > 0 && numbers < levels.length) {
    remarks.push(obstacle(`${field}.levels`, 'numbers-and-names', name));
  }
  if (levels[factor.baseLevel] === undefined) {
    remarks.push(obstacle(`${field}.baseLevel`, 'base-unknown', name));
  }
  return remarks;
}

/** What can't be set on a rig; null for a value that can. */
function problemOf({ kind }: Factor, value: number): Obstacle | null {
  switch (kind) {
    case 'angle':
      return value >= 0 && value <= 90 ? null : 'not-an-angle';
    case 'blades':
      return Number.isInteger(value) && value >= 1 ? null : 'not-a-blade-count';
    case 'length':
      return value > 0 ? null : 'not-a-length';
    case 'fan':
    case 'load':
    case 'own':
      return null;
  }
}

/** What a plan will not be able to tell, though it can be carried out. */
export function planWarnings(plan: Plan): PlanRemark<Warning>[] {
  const { order, rounds, factors } = plan;
  const isDrawn = order === 'random' || settingsOf(plan).length < 2;
  return [
    ...(isDrawn ? [] : [warning('order', 'listed-order')]),
    ...(rounds > 1 ? [] : [warning('rounds', 'one-round')]),
    ...factors.flatMap((factor, place) =>
      isNumeric(factor) && factor.levels.length === 2
        ? [warning(`factors.${place}.levels`, 'two-levels', factor.name)]
        : [],
    ),
  ];
}

/** The places of what stands in a list for a second time. */
function doubled(items: readonly unknown[]): number[] {
  return items.flatMap((item, place) => (items.indexOf(item) < place ? [place] : []));
}

/** 10000 as "10 000" with narrow spaces (SI brochure, 5.4.4). */
function grouped(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, '\u202f');
}
