/** From the form as typed to a plan, or to what is in the way of it and at which field. */
import { planObstacles } from '#core/experiment/plan/obstacles.ts';
import {
  MOST_LEVELS,
  MOST_ROUNDS,
  PlanSchema,
  type Factor,
  type Level,
  type Plan,
} from '#core/experiment/plan/plan.ts';
import type { Obstacle } from '#core/experiment/plan/remarks.ts';
import type { FactorForm, PlanForm } from './form.ts';
import { readLevels, strangeUnit } from './levels-text.ts';
import { readCount, readTimeOfDay } from './counts-and-times.ts';
import { fits, keyOf, usualUnit } from './units.ts';

/** What only the form can tell; the rest is an obstacle that the core knows. */
export type ProblemKind =
  | 'missing'
  | 'too-long'
  | 'too-many'
  | 'not-a-count'
  | 'not-a-time'
  | 'unit-unknown'
  | 'level-unknown'
  | 'half-empty'
  | 'not-understood';

export type FormProblem = {
  /** Where in the form: "question", "factors.0.levels", "constants.2", … */
  readonly field: string;
  /** What it is about: a level, the counts that there can be, "1–20". */
  readonly about: string;
} & (
  | { readonly kind: ProblemKind }
  | { readonly kind: 'obstacle'; readonly obstacle: Obstacle }
);

export type ReadForm =
  | { readonly plan: Plan; readonly problems: readonly [] }
  | { readonly plan: null; readonly problems: readonly FormProblem[] };

const LONGEST = { question: 120, name: 40, level: 24, group: 24, value: 60, unit: 12 } as const;
const MOST_REPEATS = 5;
const MOST_GROUPS = 8;
const MOST_CONSTANTS = 12;
const EVERY = { least: 2, most: 50 } as const;

/** A plan without obstacles, or what is in the way of one; never both. */
export function readForm(form: PlanForm): ReadForm {
  const problems: FormProblem[] = [];
  const note = (field: string, kind: ProblemKind, about: string | number = ''): void => {
    problems.push({ field, kind, about: String(about) });
  };
  const factors = form.factors.map((factor, place) => readFactor(factor, place, note));
  const raw = {
    question: readText(form.question, 'question', LONGEST.question, note),
    factors,
    design: form.factors.length === 1 ? 'single' : form.design,
    rounds: readWhole(form.rounds, 'rounds', MOST_ROUNDS, note),
    repeats: readWhole(form.repeats, 'repeats', MOST_REPEATS, note),
    order: form.order,
    seed: form.seed,
    groups: readGroups(form.groups, note),
    reference: readReference(form, factors, note),
    constants: readConstants(form, note),
    finishBy: readFinish(form.finishBy, note),
  };
  if (problems.length > 0) return { plan: null, problems };
  const parsed = PlanSchema.safeParse(raw);
  if (!parsed.success) return { plan: null, problems: parsed.error.issues.map(ofIssue) };
  const obstacles = planObstacles(parsed.data).map(({ field, kind, about }): FormProblem => {
    return { field: formField(field), kind: 'obstacle', obstacle: kind, about };
  });
  if (obstacles.length > 0) return { plan: null, problems: obstacles };
  return { plan: parsed.data, problems: [] };
}

/** What is understood of one factor's levels, also while the rest is not ready. */
export function levelsOf(factor: FactorForm): readonly Level[] {
  return readLevels(factor.levels, factor.kind, factor.unit.trim() || usualUnit(factor.kind));
}

type Note = (field: string, kind: ProblemKind, about?: string | number) => void;

function readText(text: string, field: string, longest: number, note: Note): string {
  const trimmed = text.trim();
  if (trimmed === '') note(field, 'missing');
  else if (trimmed.length > longest) note(field, 'too-long', longest);
  return trimmed;
}

function readWhole(text: string, field: string, most: number, note: Note): number {
  const count = readCount(text, most);
  if (count === null) note(field, 'not-a-count', `1–${most}`);
  return count ?? 1;
}

function readFactor(form: FactorForm, place: number, note: Note): Factor {
  const field = `factors.${place}`;
  const unit = form.unit.trim() || usualUnit(form.kind);
  if (unit.length > LONGEST.unit) note(`${field}.unit`, 'too-long', LONGEST.unit);
  else if (!fits(form.kind, unit)) note(`${field}.unit`, 'unit-unknown', unit);
  const name = readText(form.name, `${field}.name`, LONGEST.name, note);
  const levels = [...levelsOf(form)];
  const strange = strangeUnit(form.levels, form.kind, unit);
  const long = levels.find(({ label }) => label.length > LONGEST.level);
  if (levels.length === 0) note(`${field}.levels`, 'missing');
  else if (strange !== null) note(`${field}.levels`, 'unit-unknown', strange);
  else if (levels.length > MOST_LEVELS) note(`${field}.levels`, 'too-many', MOST_LEVELS);
  else if (long !== undefined) note(`${field}.levels`, 'too-long', LONGEST.level);
  const baseLevel = levelNamed(form.base, levels);
  if (baseLevel < 0) note(`${field}.base`, 'level-unknown', form.base);
  const key = keyOf(form.kind, name, unit, place);
  return { kind: form.kind, key, name, levels, baseLevel };
}

/** Place of the level with this label, 0 for no label; -1 where there is none. */
function levelNamed(label: string, levels: readonly Level[]): number {
  if (label === '') return 0;
  return levels.findIndex((level) => plain(level.label) === plain(label));
}

/** A thin space and a plain one are the same to a person. */
function plain(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

function readGroups(text: string, note: Note): string[] {
  const groups = text.split(/[,;\n]/).flatMap((one) => (plain(one) === '' ? [] : [plain(one)]));
  if (groups.length > MOST_GROUPS) note('groups', 'too-many', MOST_GROUPS);
  if (groups.some((one) => one.length > LONGEST.group)) note('groups', 'too-long', LONGEST.group);
  return groups;
}

function readReference(
  { referenceEvery, referenceAt }: PlanForm,
  factors: readonly Factor[],
  note: Note,
): Plan['reference'] {
  if (referenceEvery.trim() === '') return null;
  const every = readCount(referenceEvery, EVERY.most) ?? 0;
  if (every < EVERY.least) note('reference', 'not-a-count', `${EVERY.least}–${EVERY.most}`);
  const levels = factors.map((factor, place) => levelNamed(referenceAt[place] ?? '', factor.levels));
  const lost = levels.findIndex((level) => level < 0);
  if (lost >= 0) note('reference', 'level-unknown', referenceAt[lost]);
  return { every, levels };
}

/** Rows that are empty are no constants. */
function readConstants({ constants }: PlanForm, note: Note): Plan['constants'] {
  const filled = constants.map(({ name, value }) => ({ name: name.trim(), value: value.trim() }));
  filled.forEach(({ name, value }, place) => {
    if ((name === '') !== (value === '')) note(`constants.${place}`, 'half-empty');
    if (name.length > LONGEST.name) note(`constants.${place}`, 'too-long', LONGEST.name);
    if (value.length > LONGEST.value) note(`constants.${place}`, 'too-long', LONGEST.value);
  });
  const kept = filled.filter(({ name }) => name !== '');
  if (kept.length > MOST_CONSTANTS) note(`constants.${MOST_CONSTANTS}`, 'too-many', MOST_CONSTANTS);
  return kept;
}

function readFinish(text: string, note: Note): string | null {
  if (text.trim() === '') return null;
  const time = readTimeOfDay(text);
  if (time === null) note('finishBy', 'not-a-time');
  return time;
}

/** Where the core's own name for a place stands in the form. */
export function formField(path: string): string {
  const [head = '', place = '0', part = 'levels'] = path.split('.');
  switch (head) {
    case 'factors':
      return `factors.${place}.${{ key: 'name', baseLevel: 'base' }[part] ?? part}`;
    case 'reference':
    case 'groups':
      return head;
    case 'constants':
      return `constants.${place}`;
    default:
      return head;
  }
}

function ofIssue(issue: {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}): FormProblem {
  const field = formField(issue.path.map(String).join('.'));
  return { field, kind: 'not-understood', about: issue.message };
}
