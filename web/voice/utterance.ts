/**
 * What is said aloud, and when: each step once, in short sentences that stand on the page too.
 * Nothing is said of what merely goes on: silence means wait.
 */
import { writeMeasured, type Prefix } from '#core/metrology/format.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import type { TrialView } from '#core/live-messages.ts';
import { broughtToLight, doubtKeyedIn } from '../model/doubt-words.ts';
import { loggedByHand } from '../model/experiment.ts';
import { stepWords } from '../model/step-words.ts';
import type { AirHeard, Stage } from '../model/stage.ts';
import { inOneLine } from '../model/words.ts';
import type { Catalogue, Lines } from '../words/catalogue.ts';

export interface Heard {
  readonly words: Catalogue;
  readonly stage: Stage;
  readonly experiment: ExperimentView;
  /** The trial of the stretch that is open; null before it is on disk. */
  readonly trial: TrialView | null;
  /** All, by number. */
  readonly trials: readonly TrialView[];
  readonly air: AirHeard;
  /** Of power, through the session. */
  readonly prefix: Prefix;
  readonly isSaving: boolean;
}

/** What gusts look like, from one moment to the next, while it is asked what to do about them. */
const TRYING: readonly Stage[] = ['spinning-up', 'moving', 'settling', 'hold', 'unsettled'];

/** @returns null where nothing is to be said */
export function utteranceOf(heard: Heard): string | null {
  const { words, stage, experiment, trial } = heard;
  const { instruction, voice } = words;
  if (stage === 'logged') return trial === null ? null : loggedWords(trial, heard);
  if (stage === 'still') return heard.isSaving ? null : voice.notSaved;
  if (stage === 'disturbed') return voice.disturbed;
  if (stage === 'unplugged' || stage === 'silent') return voice.unplugged;
  const isAsked = experiment.question?.kind === 'unsettled';
  if (isAsked && TRYING.includes(stage)) return words.question.unsettled;
  if (stage === 'spinning-up') return spoken(instruction.spinningUp, words);
  const byHand = loggedByHand(experiment, heard.trials);
  if (byHand !== null) return loggedWords(byHand, heard);
  const step = stepWords(experiment, stage, words, heard.air);
  if (step !== null) return [keyed(heard), spoken(step.lines, words)].filter(Boolean).join(' ');
  if (stage === 'meters') return keyed(heard) || null;
  if (stage === 'unsettled') return words.question.unsettled;
  return null;
}

/** With these the doubt about a trial that was keyed in is said: once, before the next begins. */
const AFTER_KEYED: readonly ExperimentView['step'][] = ['set-blades', 'finished', 'read-meters'];

function keyed({ experiment, trials, words }: Heard): string {
  if (!AFTER_KEYED.includes(experiment.step)) return '';
  return doubtKeyedIn(experiment, trials, words).replaceAll('\u202f', ' ');
}

/** The result, and what is to be looked at: nobody at the rig reads the list. */
function loggedWords(trial: TrialView, heard: Heard): string | null {
  const result = resultWords(trial, heard);
  const { experiment, trials, words } = heard;
  const doubt = broughtToLight(experiment, trial, trials, words).replaceAll('\u202f', ' ');
  return result === null || doubt === '' ? result : `${result} ${doubt}`;
}

function resultWords(trial: TrialView, { words, prefix }: Heard): string | null {
  const { power_W, rotorStill, basis } = trial;
  if (rotorStill) return words.voice.didNotTurn;
  if (power_W === null) return null;
  // The value alone, but with no digit that its uncertainty does not carry.
  const { value } = writeMeasured(power_W, { unit: 'W', prefix });
  const power = words.voice.power(words.number(value), prefix.symbol);
  return basis === 'settled' ? words.voice.logged(power) : words.voice.loggedByHand(power);
}

/** An instruction with its units written out: "Set blades to 25 degrees." */
function spoken(lines: Lines, { voice }: Catalogue): string {
  return inOneLine(lines)
    .replaceAll('\u202f', ' ')
    .replace(/(\d)\s?(°|mm|cm|m|Ω|V)(?![\p{L}\d])/gu, (_all, digit: string, unit: string) => {
      return `${digit} ${voice.unit[unit as keyof typeof voice.unit]}`;
    });
}
