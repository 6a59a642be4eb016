/** What was found of the reasons, as sentences. */
import type { Assumed, FittedPart } from '#core/experiment/why/described-rig.ts';
import type { Finding } from '#core/experiment/why/findings.ts';
import type { WhatIf } from '#core/experiment/why/what-if.ts';
import type { KnownWhy } from '#core/experiment/why/why.ts';
import type { WhyLevel } from '#core/experiment/why/why-level.ts';
import { decimalAt, firstPlace, prefixFor, UNIT_SPACE, type Prefix } from '#core/metrology/format.ts';
import type { Explanation } from '#core/rotor/expected/compared-level.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { WhyWords } from '../words/why-words.ts';
import { powerText } from './budget.ts';
import { plainText } from './coefficient.ts';

export interface WhyWriting {
  readonly words: Catalogue;
  readonly say: WhyWords;
}

/** Two digits: a model's figure deserves no more. */
export function roughText(value: number, { number }: Catalogue): string {
  const text = value === 0 ? '0' : decimalAt(value, firstPlace(value) - 1);
  return number(text);
}

/** One prefix for all powers of a page, so that they can be compared. */
export function modelPrefix({ levels }: KnownWhy): Prefix {
  const most = levels.map(({ measured, point }) => {
    return Math.max(measured?.mean_W ?? 0, point.loadPower_W, point.loadPowerHigh_W);
  });
  return prefixFor(Math.max(...most, 1e-6));
}

export function headline(why: KnownWhy, { words, say }: WhyWriting): string {
  const label = (place: number): string => why.levels[place]!.label;
  for (const found of why.findings) {
    if (found.kind === 'agree') {
      const [level, others] = [label(found.measured), words.list(found.tiedWith.map(label))];
      return found.tiedWith.length === 0 ? say.agree(level) : say.agreeSoFar(level, others);
    }
    if (found.kind === 'perhaps' || found.kind === 'disagree') {
      return say[found.kind](label(found.measured), label(found.model));
    }
    if (found.kind === 'nothing-starts') return say.nothingStarts;
  }
  return say.expects(label(why.best.model.level ?? 0));
}

/** One a finding; those of the headline are left out. */
export function sentencesOf(why: KnownWhy, writing: WhyWriting): string[] {
  return why.findings.flatMap((found) => sentencesFor(found, why, writing));
}

function sentencesFor(found: Finding, why: KnownWhy, { words, say }: WhyWriting): string[] {
  const { levels } = why;
  const label = (place: number): string => levels[place]!.label;
  const named = (places: readonly number[]): string => words.list(places.map(label));
  const rough = (value: number): string => roughText(value, words);
  const power = (value_W: number): string => powerText(value_W, modelPrefix(why), words);
  const ohms = (value_Ohm: number): string => `${rough(value_Ohm)}${UNIT_SPACE}Ω`;
  const withGuesses = (said: string, { verdict, agreeing }: WhatIf): string => {
    return verdict === 'unsure' ? said : `${said} ${say.soInGuesses(guesses(agreeing))}`;
  };
  switch (found.kind) {
    case 'agree':
    case 'perhaps':
    case 'disagree':
    case 'nothing-starts':
      return [];
    case 'best-far':
      return [say.bestFar(label(found.level))];
    case 'sure':
      return [say.sure(label(found.level), guesses(found.share))];
    case 'standing': {
      const torque = rough(found.torqueRatio);
      return [say.standing({ best: label(found.best), other: label(found.other), torque })];
    }
    case 'not-longest': {
      const [now, then] = [found.best, found.longest].map((place) => {
        return power(levels[place]!.point.loadPower_W);
      }) as [string, string];
      const [best, longest] = [label(found.best), label(found.longest)];
      return [say.notLongest({ best, longest, now, then })];
    }
    case 'beyond-jet':
      return [say.beyondJetAt(named(found.levels))];
    case 'compared': {
      const speed = rough(found.speedRatio);
      const torque = rough(found.torqueRatio);
      const of = { best: label(found.best), other: label(found.other), speed, torque };
      return [say.compared[found.how](of)];
    }
    case 'glide':
      return [
        say.glide({
          best: label(found.best),
          other: label(found.other),
          bestGlide: rough(found.bestGlide),
          otherGlide: rough(found.otherGlide),
        }),
      ];
    case 'along':
      return [say.along(label(found.best), label(found.other))];
    case 'starts':
      return [say.starts[found.how](named(found.levels))];
    case 'turned-anyway':
      return [say.turnedAnyway(named(found.levels))];
    case 'stood-anyway':
      return [say.stoodAnyway(named(found.levels))];
    case 'load': {
      const { verdict, less_W, same_W, more_W } = found.found;
      const then = power(verdict === 'less' ? less_W : more_W);
      const [load, winding] = [ohms(found.load_Ohm), ohms(found.winding_Ohm)];
      const said = say.load[verdict]({ load, winding, now: power(same_W), then });
      return [withGuesses(said, found.found)];
    }
    case 'length': {
      const { verdict, less_W, same_W, more_W } = found.found;
      const then = power(verdict === 'less' ? less_W : more_W);
      const length = `${rough(1000 * found.length_m)}${UNIT_SPACE}mm`;
      const alone = say.length[verdict]({ length, now: power(same_W), then });
      const said = withGuesses(alone, found.found);
      return found.isBeyondJet ? [said, say.beyondJet] : [said];
    }
    case 'shares': {
      const [load, winding, friction] = [found.load, found.winding, found.friction].map((share) => {
        return String(Math.round(100 * share));
      });
      return [say.shares(load!, winding!, friction!)];
    }
  }
}

/** Rounded down: what fails in a few does not hold in all. */
function guesses(share: number): string {
  return String(Math.floor(100 * share));
}

/** Which levels are far from what the model expects: a sentence or two. */
export function farSaid({ levels }: KnownWhy, { words, say }: WhyWriting): string[] {
  if (levels.every(({ measured }) => measured === null)) return [say.nothingMeasured];
  const said = (['less', 'more'] as const).flatMap((which) => {
    const far = levels.filter((level) => farHow(level) === which);
    return far.length === 0 ? [] : [say.far[which](words.list(far.map(({ label }) => label)))];
  });
  return said.length === 0 ? [say.allNear] : said;
}

/** Null where it is where it should be. */
export function farHow({ isFar, measured, point }: WhyLevel): 'less' | 'more' | null {
  if (!isFar || measured === null) return null;
  return measured.mean_W < point.loadPowerLow_W ? 'less' : 'more';
}

export function causeText({ suspect, change }: Explanation, { words, say }: WhyWriting): string {
  const size = roughText(Math.abs(change), words);
  if (suspect === 'blade angle') return say.blades[change > 0 ? 'steeper' : 'flatter'](size);
  return say.cause[suspect](size);
}

export function tipsText({ tips, levels }: KnownWhy, { words, say }: WhyWriting): string | null {
  if (tips === null) return null;
  const { level, measured, model } = tips;
  return say.tips(levels[level]!.label, plainText(measured, words), roughText(model, words));
}

export function fittedText(
  fitted: readonly FittedPart[],
  { words, say }: WhyWriting,
): string | null {
  if (fitted.length === 0) return null;
  return say.fittedTo(words.list(fitted.map((part) => say.fitted[part])));
}

export function assumedText(
  assumed: readonly Assumed[],
  { words, say }: WhyWriting,
): string | null {
  if (assumed.length === 0) return null;
  return say.notSaid(words.list(assumed.map((name) => say.assumed[name])));
}
