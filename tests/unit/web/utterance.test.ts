/** What is said aloud, in each language, and by which voice. */
import { describe, expect, it } from 'vitest';
import { PlanSchema } from '#core/experiment/plan/plan.ts';
import { NO_EXPERIMENT, type ExperimentView } from '#core/experiment/view.ts';
import { sessionPrefixes } from '../../../web/model/quantities.ts';
import { wordsOf } from '../../../web/model/words.ts';
import { chooseVoice, type Voice } from '../../../web/voice/choose-voice.ts';
import { utteranceOf, type Heard } from '../../../web/voice/utterance.ts';
import { LANGUAGES } from '../../../web/words/catalogue.ts';
import { CATALOGUES } from '../../../web/words/languages.ts';
import { trialOf } from './fixtures.ts';

const heard = (more: Partial<Heard>): Heard => ({
  words: CATALOGUES.en,
  stage: 'logged',
  experiment: NO_EXPERIMENT,
  trial: trialOf(9, 243),
  trials: [],
  air: { isWindy: false, movesAlone: false },
  prefix: { symbol: 'm', exponent: -3 },
  isSaving: true,
  ...more,
});
const PLAN = PlanSchema.parse({
  question: 'Which angle?',
  factors: [
    {
      kind: 'angle',
      key: 'angle_deg',
      name: 'Blade angle',
      levels: [{ label: '25°', value: 25 }],
    },
  ],
  design: 'single',
  rounds: 1,
  order: 'listed',
  seed: 1,
});
const RUN = {
  id: 'a',
  round: 1,
  group: null,
  levels: [0],
  repeat: 1,
  isReference: false,
  isAgain: false,
  status: 'now' as const,
  trialIds: [],
};
const at = (step: ExperimentView['step']): ExperimentView => {
  return { ...NO_EXPERIMENT, plan: PLAN, runs: [RUN], runId: 'a', step };
};

/** What the band says below, at the same moment. */
const wordsBelow = ({ stage, experiment, trials }: Pick<Heard, 'stage' | 'experiment' | 'trials'>) => {
  const newest = trials.at(-1) ?? null;
  const prefixes = sessionPrefixes(trials, { voltage_V: 0, current_A: 0, windSpeed_mps: 0, power_W: 0 });
  const rest = { status: null, judgement: null, stretch_s: 0, usual_s: null, quiet_s: 0 };
  return wordsOf({ words: CATALOGUES.en, stage, experiment, trials, newest, prefixes, ...rest })
    .detail.replaceAll('\u202f', ' ');
};

describe('what is said', () => {
  it.each([
    ['en', 'Settled. 243 milliwatts. Stop the fan.'],
    ['de', 'Ruhig. 243 Milliwatt. Stopp den Ventilator.'],
    ['es', 'Quieto. 243 milivatios. Apaga el ventilador.'],
    ['fr', 'Calme. 243 milliwatts. Arrête le ventilateur.'],
  ] as const)('of a logged trial in %s', (language, text) => {
    expect(utteranceOf(heard({ words: CATALOGUES[language] }))).toBe(text);
  });
  it.each([
    ['en', 'Settled. 243 milliwatts. Stop the fan. In trial 9 the wind was 6 % off. Has the fan been moved?'],
    ['de', 'Ruhig. 243 Milliwatt. Stopp den Ventilator. Bei Messung 9 war der Wind um 6 % anders. Wurde der Ventilator bewegt?'],
  ] as const)('of a drift at the trial that it is seen in, in %s', (language, text) => {
    const doubt = { kind: 'wind-drift', message: '', share: -0.06 } as const;
    const experiment = {
      ...NO_EXPERIMENT,
      doubts: [{ ...doubt, trialId: 9 }],
    };
    const words = CATALOGUES[language];
    expect(utteranceOf(heard({ words, experiment }))).toBe(text);
    expect(utteranceOf(heard({ words, experiment, trial: trialOf(9, 243, { struck: true }) }))).not.toContain('6 %');
  });
  it('of a doubt about a trial that was keyed in, by two meters alone or beside a board, and in the band', () => {
    const doubts = [{ kind: 'wind-drift', message: '', share: -0.06, trialId: 9 }] as const;
    const trials = [trialOf(9, 243, { origin: 'keyed', basis: 'keyed' })];
    const said = (step: ExperimentView['step'], stage: Heard['stage'], of = trials) => {
      const given = { stage, experiment: { ...at(step), doubts }, trial: null, trials: of };
      return [utteranceOf(heard(given)), wordsBelow(given)];
    };
    const doubt = 'In trial 9 the wind was 6 % off. Has the fan been moved?';
    expect(said('read-meters', 'meters')).toEqual([doubt, doubt]);
    expect(said('finished', 'meters')).toEqual([doubt, doubt]);
    expect(said('set-blades', 'waiting')).toEqual([`${doubt} Set blades to 25 degrees.`, doubt]);
    // Once is enough aloud.
    expect(said('start-fan', 'waiting')).toEqual(['Stand back. Start the fan.', doubt]);
    expect(said('read-meters', 'meters', [trialOf(9, 243)])[0]).toBeNull();
  });
  it.each([
    ['en', 'Set blades to 25 degrees.'],
    ['de', 'Stell Flügel auf 25 Grad.'],
    ['es', 'Pon las aspas a 25 grados.'],
    ['fr', 'Règle les pales à 25 degrés.'],
  ] as const)('of a level to be set in %s', (language, text) => {
    const given = { words: CATALOGUES[language], stage: 'waiting', experiment: at('set-blades') } as const;
    expect(utteranceOf(heard(given))).toBe(text);
  });
  it('has no more digits than the uncertainty carries, and the mark of the language', () => {
    const vague = trialOf(9, 243.4, {
      power_W: { value: 0.2434, standardUncertainty: 0.02, degreesOfFreedom: 1e6 },
    });
    expect(utteranceOf(heard({ trial: vague }))).toContain('240 milliwatts');
    const fine = trialOf(9, 2.314, {
      power_W: { value: 0.002314, standardUncertainty: 0.00002, degreesOfFreedom: 1e6 },
    });
    expect(utteranceOf(heard({ trial: fine }))).toContain('2.31 milliwatts');
    expect(utteranceOf(heard({ trial: fine, words: CATALOGUES.de }))).toContain('2,31 Milliwatt');
  });
  it('of a trial that somebody wanted logged though it would not settle: its result, not that it was still', () => {
    const averaged = trialOf(9, 243, { basis: 'average', runId: 'a' });
    const experiment = { ...at('logged'), runs: [{ ...RUN, status: 'done' as const, trialIds: [9] }] };
    const given = { stage: 'unsettled', experiment, trial: null, trials: [averaged] } as const;
    expect(utteranceOf(heard(given))).toBe('Logged. 243 milliwatts. Stop the fan.');
    expect(wordsBelow(given)).toMatch(/^Trial 9, 243 ± 5 mW, was saved/);
    // Left out, the run has no trial; the one before it is no news.
    const skipped = { ...given, experiment: { ...experiment, runs: [RUN] } };
    expect(utteranceOf(heard(skipped))).toBe('Stop the fan.');
    expect(wordsBelow(skipped)).toBe('Let the blades stop by themselves.');
  });
  it('of gusts that come and go: the question, once, whatever they look like meanwhile', () => {
    const experiment = { ...at('settling'), question: { kind: 'unsettled', cause: 'gusts' } as const };
    const say = (stage: Heard['stage']) => utteranceOf(heard({ stage, experiment }));
    for (const stage of ['unsettled', 'spinning-up', 'moving', 'settling'] as const) {
      expect(say(stage)).toMatch(/^It will not settle/);
    }
    expect(say('running-down')).toBeNull();
  });
  it('claims nothing before it is on disk, and tells when saving has stopped', () => {
    expect(utteranceOf(heard({ trial: null }))).toBeNull();
    expect(utteranceOf(heard({ stage: 'still' }))).toBeNull();
    expect(utteranceOf(heard({ stage: 'still', isSaving: false }))).toMatch(/Saving has stopped/);
  });
  it('calls a rotor that did not turn a result', () => {
    expect(utteranceOf(heard({ trial: trialOf(9, 0, { rotorStill: true }) }))).toMatch(/did not turn/);
  });
  it.each(LANGUAGES)('never tells anyone to set a blade that may turn (%s)', (language) => {
    const words = CATALOGUES[language];
    const given = { words, experiment: at('set-blades'), stage: 'moving' } as const;
    expect(utteranceOf(heard(given))).toBe(words.instruction.runningDown.join(' '));
  });
  it('is nothing while readings settle, or nothing is wanted', () => {
    for (const stage of ['moving', 'settling', 'hold', 'connecting', 'waiting'] as const) {
      expect(utteranceOf(heard({ stage }))).toBeNull();
    }
  });
  it.each(LANGUAGES)('is short: at most 80 letters in %s', (language) => {
    const words = CATALOGUES[language];
    for (const stage of ['logged', 'disturbed', 'unplugged', 'spinning-up'] as const) {
      expect(utteranceOf(heard({ words, stage }))?.length).toBeLessThanOrEqual(80);
    }
  });
});

describe('the voice', () => {
  const voice = (name: string, lang: string, more: Partial<Voice> = {}): Voice => {
    return { name, lang, localService: true, default: false, ...more };
  };
  const VOICES = [
    voice('A', 'en-GB', { default: true }),
    voice('B', 'de-DE', { localService: false }),
    voice('C', 'de_AT'),
  ];
  it('is one of the language, of this device first', () => {
    expect(chooseVoice(VOICES, 'de')).toMatchObject({ voice: { name: 'C' }, matches: true });
    expect(chooseVoice(VOICES, 'en')).toMatchObject({ voice: { name: 'A' }, matches: true });
  });
  it('is the default where there is none of the language, and none where there is none', () => {
    expect(chooseVoice(VOICES, 'fr')).toMatchObject({ voice: { name: 'A' }, matches: false });
    expect(chooseVoice([], 'fr')).toBeNull();
  });
});
