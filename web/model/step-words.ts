/**
 * What a plan asks for now, where that is more than the readings say by themselves. The step is the
 * program's; a page only ever makes it more careful: while anything turns on the page, nobody is
 * told to set a blade.
 */
import type { ExperimentView } from '#core/experiment/view.ts';
import type { Below, Catalogue, Lines } from '../words/catalogue.ts';
import { changedSettings, runById } from './experiment.ts';
import { hasReadings, hasThreads, type AirHeard, type Stage } from './stage.ts';

export interface StepWords {
  readonly lines: Lines;
  readonly below: Below;
}

const UNHEARD: AirHeard = { isWindy: false, movesAlone: false };

/** Stages in which the readings' own words come first … */
const READINGS_FIRST: readonly Stage[] = ['logged', 'spinning-up', 'running-down', 'disturbed'];
/** … these even when the fan must be stopped first: nobody waits for what no run asked for. */
const EVEN_BEFORE_A_STOP: readonly Stage[] = ['logged', 'running-down'];

/** @returns null where the words of the stage say it all */
export function stepWords(
  experiment: ExperimentView,
  stage: Stage,
  words: Catalogue,
  air: AirHeard = UNHEARD,
): StepWords | null {
  const first = experiment.step === 'stop-fan' ? EVEN_BEFORE_A_STOP : READINGS_FIRST;
  if (!hasReadings(stage) || first.includes(stage)) return null;
  const { instruction, below } = words;
  if (experiment.isWaiting) return { lines: instruction.paused, below: below.paused };
  return questionWords(experiment, stage, words) ?? wordsOfStep(experiment, stage, words, air);
}

function wordsOfStep(
  experiment: ExperimentView,
  stage: Stage,
  words: Catalogue,
  air: AirHeard,
): StepWords | null {
  const { instruction, below } = words;
  const turns = hasThreads(stage);
  switch (experiment.step) {
    // Said where no board is in use, and nothing here can tell whether anything turns.
    case 'read-meters':
    case 'no-plan':
      return null;
    case 'stop-fan':
    case 'logged':
      return { lines: instruction.stopFan, below: below.stopFan };
    case 'blades-stopping':
      return dyingWords(words, air);
    case 'set-blades':
      if (turns) return dyingWords(words, air);
      return {
        lines: setLines(experiment, instruction),
        below: experiment.isWindHeard ? below.setBlades : below.setBladesUnheard,
      };
    case 'start-fan':
    case 'settling':
      if (turns) return null;
      return air.isWindy
        ? { lines: instruction.windOnly, below: below.windWithoutTurn }
        : { lines: instruction.startFan, below: below.startFan };
    case 'finished':
      return turns ? null : { lines: instruction.finished, below: below.finished };
  }
}

/** What runs down and must not be touched yet: the blades, or where they never turned the fan. */
export function dyingWords({ instruction, below }: Catalogue, { movesAlone }: AirHeard): StepWords {
  return movesAlone
    ? { lines: instruction.windDies, below: below.windDies }
    : { lines: instruction.runningDown, below: below.bladesTurn };
}

/** "Set blades to 25°.": only what the next run changes. */
function setLines(experiment: ExperimentView, instruction: Catalogue['instruction']): Lines {
  const run = runById(experiment, experiment.runId);
  const changed = run === null ? [] : changedSettings(experiment, run);
  const [first] = changed;
  if (first === undefined) return instruction.startFan;
  return changed.length === 1
    ? instruction.set(first)
    : instruction.setAll(changed.map(({ level }) => level.label));
}

/** What the tool can't hear and asks; will-not-settle has its own words, which say why. */
function questionWords(
  { question }: ExperimentView,
  stage: Stage,
  words: Catalogue,
): StepWords | null {
  if (question === null || question.kind === 'unsettled' || hasThreads(stage)) return null;
  const { isFanOn, unassigned, onLaptop, asked } = words.question;
  const moving = question.kind === 'is-fan-on' ? isFanOn : unassigned(question.trialId);
  return { lines: asked[question.kind], below: { moving, detail: onLaptop, state: onLaptop } };
}
