/**
 * What can be said in plain words of why a level gives the most. Each finding is said only where
 * the numbers of this rig bear it out; a finding carries the numbers that it is about.
 */
import { loadResistance_Ohm } from '../../rotor/circuit.ts';
import type { Factor } from '../plan/plan.ts';
import type { WhatIf } from './what-if.ts';
import type { WhyBest, WhyLevel } from './why-level.ts';

/** How the best compares with another: turning faster or slower, driven harder or less hard. */
export const COMPARED = ['faster-harder', 'faster-softer', 'slower-harder'] as const;
/** Whether it starts by itself, in the model. */
export const STARTS = ['yes', 'perhaps', 'no', 'pushed', 'neither-way'] as const;

export type Finding =
  | { readonly kind: 'agree'; readonly measured: number; readonly tiedWith: readonly number[] }
  | { readonly kind: 'perhaps' | 'disagree'; readonly measured: number; readonly model: number }
  /** In what share of the draws the model's best gives the most. */
  | { readonly kind: 'sure'; readonly level: number; readonly share: number }
  /** The level that gave the most lies outside the model's band. */
  | { readonly kind: 'best-far'; readonly level: number }
  | { readonly kind: 'nothing-starts' }
  | {
      readonly kind: 'compared';
      readonly how: (typeof COMPARED)[number];
      readonly best: number;
      readonly other: number;
      /** Best over other. */
      readonly speedRatio: number;
      readonly torqueRatio: number;
    }
  | {
      /** Lift over drag at the blade. */
      readonly kind: 'glide';
      readonly best: number;
      readonly other: number;
      readonly bestGlide: number;
      readonly otherGlide: number;
    }
  /** At both the air slides along the blades: the flatter ones have to run faster for that. */
  | { readonly kind: 'along'; readonly best: number; readonly other: number }
  | {
      readonly kind: 'starts';
      readonly how: (typeof STARTS)[number];
      readonly levels: readonly number[];
    }
  /** Standing blades are pushed so many times as hard at the other level, where it runs slower. */
  | {
      readonly kind: 'standing';
      readonly best: number;
      readonly other: number;
      readonly torqueRatio: number;
    }
  /** Measured against the model: it turned, or stood, where it should not. */
  | { readonly kind: 'turned-anyway' | 'stood-anyway'; readonly levels: readonly number[] }
  | {
      readonly kind: 'load';
      readonly found: WhatIf;
      readonly load_Ohm: number;
      readonly winding_Ohm: number;
    }
  | {
      readonly kind: 'length';
      readonly found: WhatIf;
      readonly length_m: number;
      /** The tips reach beyond the fan's jet. */
      readonly isBeyondJet: boolean;
    }
  /** Where the length is varied: the longest gives less than the best. */
  | { readonly kind: 'not-longest'; readonly best: number; readonly longest: number }
  /** Where the length is varied: blades whose tips lie beyond the fan's jet. */
  | { readonly kind: 'beyond-jet'; readonly levels: readonly number[] }
  | {
      /** Of what the rotor takes, by the model; together 1. */
      readonly kind: 'shares';
      readonly level: number;
      readonly load: number;
      readonly winding: number;
      readonly friction: number;
    };

export interface Found {
  readonly kind: Factor['kind'];
  readonly levels: readonly WhyLevel[];
  readonly best: WhyBest;
  /** Of the level that is looked at closely; null where it is what is varied, or nothing turns. */
  readonly load: WhatIf | null;
  readonly length: WhatIf | null;
}

/** In the order in which they are said. */
export function findingsOf(found: Found): Finding[] {
  const { levels, best } = found;
  const starting = startFindings(levels);
  if (best.model.level === null) return [{ kind: 'nothing-starts' }, ...starting];
  const model = best.model.level;
  return [
    ...agreement(best, model),
    ...bestFar(found),
    ...howSure(found, model),
    ...comparisons(found, model),
    ...lengthsFindings(found, model),
    ...starting,
    ...loadFinding(found, levels[model]!),
    ...lengthFinding(found, levels[model]!),
    shares(model, levels[model]!),
  ];
}

function agreement({ measured, tiedWith, model: expected }: WhyBest, model: number): Finding[] {
  if (measured === null) return [];
  if (measured === model) return [{ kind: 'agree', measured, tiedWith }];
  const isClose = expected.tiedWith.includes(measured) || tiedWith.includes(model);
  const kind = isClose ? 'perhaps' : 'disagree';
  return [{ kind, measured, model }];
}

function bestFar({ levels, best: { measured } }: Found): Finding[] {
  if (measured === null || !levels[measured]!.isFar) return [];
  return [{ kind: 'best-far', level: measured }];
}

/** Of the best's power: what gives more than this gives as much. */
const CLEARLY_LESS = 0.95;

/** Not where another gives as much: the same hair's breadth in every draw says nothing. */
function howSure({ levels, best }: Found, level: number): Finding[] {
  const { share } = best.model;
  const most_W = levels[level]!.point.loadPower_W;
  const alike = levels.filter(({ point }) => point.loadPower_W > CLEARLY_LESS * most_W);
  const isClear = levels.length > 1 && alike.length === 1;
  return share === null || !isClear ? [] : [{ kind: 'sure', level, share }];
}

/** With the outermost level on each side at which the rotor starts. */
function comparisons({ kind, levels }: Found, model: number): Finding[] {
  const top = levels[model]!;
  const others = outermost(levels, model);
  const compared = others.flatMap((other) => comparedWith(model, top, other, levels[other]!));
  if (kind !== 'angle') return compared;
  return [
    ...compared,
    ...glideFinding(model, top, others, levels),
    ...alongFinding(model, top, others, levels),
    ...standingFinding(model, top, others, levels),
  ];
}

/** Places of the levels with the smallest and the largest value, the best itself left out. */
function outermost(levels: readonly WhyLevel[], model: number): number[] {
  const { seat, value } = levels[model]!;
  if (value === null) return [];
  const beside = levels
    .map((level, place) => ({ ...level, place }))
    .filter(({ seat: { beside }, point }) => beside === seat.beside && point.starts)
    .sort((a, b) => (a.value ?? 0) - (b.value ?? 0));
  const ends = new Set([beside[0]?.place, beside.at(-1)?.place]);
  return [...ends].filter((place) => place !== undefined && place !== model) as number[];
}

/** Speed and torque make power at the shaft: nothing is said where that is not clearly larger. */
function comparedWith(best: number, top: WhyLevel, other: number, low: WhyLevel): Finding[] {
  if (low.point.shaftPower_W >= CLEARLY_LESS * top.point.shaftPower_W) return [];
  const speedRatio = top.point.rotorSpeed_radps / low.point.rotorSpeed_radps;
  const torqueRatio = top.point.shaftPower_W / low.point.shaftPower_W / speedRatio;
  const how = speedRatio <= 1 ? 'slower-harder' : torqueRatio < 1 ? 'faster-softer' : 'faster-harder';
  return [{ kind: 'compared', how, best, other, speedRatio, torqueRatio }];
}

/** A blade that is lifted this many times as well as another is worth a sentence. */
const BETTER = 1.2;

function glideFinding(
  best: number,
  top: WhyLevel,
  others: readonly number[],
  levels: readonly WhyLevel[],
): Finding[] {
  const bestGlide = top.meeting?.glide ?? 0;
  const [worst] = others
    .map((other) => ({ other, otherGlide: levels[other]!.meeting?.glide ?? Infinity }))
    .filter(({ otherGlide }) => otherGlide > 0 && bestGlide > BETTER * otherGlide)
    .sort((a, b) => a.otherGlide - b.otherGlide);
  return worst === undefined ? [] : [{ kind: 'glide', best, bestGlide, ...worst }];
}

/** From the blade's chord, degrees: far below stall. */
const ALONG_DEG = 4;

function alongFinding(
  best: number,
  top: WhyLevel,
  others: readonly number[],
  levels: readonly WhyLevel[],
): Finding[] {
  if (!isAlong(top)) return [];
  const other = others.find((place) => {
    const level = levels[place]!;
    const isSlower = level.point.tipSpeedRatio < top.point.tipSpeedRatio;
    return isAlong(level) && isSlower && level.angle_deg > top.angle_deg;
  });
  return other === undefined ? [] : [{ kind: 'along', best, other }];
}

function isAlong({ meeting }: WhyLevel): boolean {
  return meeting !== null && Math.abs(meeting.angleOfAttack_deg) <= ALONG_DEG;
}

/** Standing blades that are pushed so many times as hard are worth a sentence. */
const HARDER = 1.2;

function standingFinding(
  best: number,
  top: WhyLevel,
  others: readonly number[],
  levels: readonly WhyLevel[],
): Finding[] {
  return others.flatMap((other): Finding[] => {
    const { standingTorque_Nm, point } = levels[other]!;
    const torqueRatio = standingTorque_Nm / top.standingTorque_Nm;
    const isSlower = point.rotorSpeed_radps < top.point.rotorSpeed_radps;
    const isWorthIt = isSlower && torqueRatio > HARDER;
    return isWorthIt ? [{ kind: 'standing', best, other, torqueRatio }] : [];
  });
}

function lengthsFindings({ kind, levels, best: { model } }: Found, best: number): Finding[] {
  if (kind !== 'length') return [];
  const { tiedWith } = model;
  const top = levels[best]!;
  const longest = levels.reduce((far, one, place) => {
    const isBeside = one.seat.beside === top.seat.beside;
    return isBeside && one.rig.rotor.radius_m > levels[far]!.rig.rotor.radius_m ? place : far;
  }, best);
  const isLess = levels[longest]!.point.loadPower_W < CLEARLY_LESS * top.point.loadPower_W;
  const notLongest: Finding[] =
    isLess && !tiedWith.includes(longest) ? [{ kind: 'not-longest', best, longest }] : [];
  const beyond = levels.flatMap(({ rig }, place) => (isBeyondJet(rig) ? [place] : []));
  const beyondJet: Finding[] = beyond.length > 0 ? [{ kind: 'beyond-jet', levels: beyond }] : [];
  return [...notLongest, ...beyondJet];
}

function isBeyondJet({ rotor: { radius_m, jetRadius_m } }: WhyLevel['rig']): boolean {
  return jetRadius_m !== null && jetRadius_m < radius_m;
}

/** Below this share of the draws it does not, above 1 less this it does. */
const DOUBTFUL = 0.05;

export function startsHow({ point, rig, angle_deg }: WhyLevel): (typeof STARTS)[number] {
  if (isNeitherWay(rig.rotor.camber, angle_deg)) return 'neither-way';
  const { starts, startsShare, pushed } = point;
  if (starts && startsShare >= 1 - DOUBTFUL) return 'yes';
  if (starts || startsShare > DOUBTFUL) return 'perhaps';
  return pushed === null ? 'no' : 'pushed';
}

/** Flat in the rotor plane, or edge-on: by symmetry flat blades are not pushed round. */
function isNeitherWay(camber: number, angle_deg: number): boolean {
  return camber === 0 && (angle_deg === 0 || angle_deg === 90);
}

function startFindings(levels: readonly WhyLevel[]): Finding[] {
  const where = (is: (level: WhyLevel) => boolean): number[] =>
    levels.flatMap((level, place) => (is(level) ? [place] : []));
  const groups: readonly Finding[] = [
    ...STARTS.map((how): Finding => {
      return { kind: 'starts', how, levels: where((level) => startsHow(level) === how) };
    }),
    { kind: 'turned-anyway', levels: where(turnedAnyway) },
    { kind: 'stood-anyway', levels: where((one) => startsHow(one) === 'yes' && didStand(one)) },
  ];
  return groups.filter((one) => 'levels' in one && one.levels.length > 0);
}

/** Blades that are pushed neither way turn once they are set a little off. */
function turnedAnyway(level: WhyLevel): boolean {
  return !level.point.starts && didTurn(level) && startsHow(level) !== 'neither-way';
}

function didTurn({ measured }: WhyLevel): boolean {
  return measured !== null && measured.count > 0;
}

function didStand({ measured }: WhyLevel): boolean {
  return measured !== null && measured.count === 0 && measured.didNotTurn > 0;
}

function loadFinding({ load }: Found, { rig, point }: WhyLevel): Finding[] {
  if (load === null) return [];
  const load_Ohm = loadResistance_Ohm(rig.load, point.voltage_V);
  return [{ kind: 'load', found: load, load_Ohm, winding_Ohm: rig.generator.resistance_Ohm }];
}

function lengthFinding({ length }: Found, { rig }: WhyLevel): Finding[] {
  if (length === null) return [];
  const { rotor } = rig;
  const length_m = rotor.radius_m - rotor.hubRadius_m;
  return [{ kind: 'length', found: length, length_m, isBeyondJet: isBeyondJet(rig) }];
}

function shares(level: number, { point }: WhyLevel): Finding {
  const { rotor_W, load_W, winding_W, friction_W } = point.powerFlow;
  const [load, winding, friction] = [load_W, winding_W, friction_W].map((part) => part / rotor_W);
  return { kind: 'shares', level, load: load!, winding: winding!, friction: friction! };
}
