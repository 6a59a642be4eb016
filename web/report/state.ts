/** What the parts of the report share. */
import { computed, effect, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import { analysisOf, type Analysis } from '#core/experiment/analysis/analysis.ts';
import type { Bench } from '../model/bench.ts';
import { sessionPrefixes, type Prefixes } from '../model/quantities.ts';
import { loadSettings, type Settings } from '../view/settings.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { REPORT_WORDS } from '../words/report-languages.ts';
import type { ReportWords } from '../words/report-words.ts';

export interface Report {
  readonly bench: Bench;
  readonly settings: Settings;
  readonly words: ReadonlySignal<Catalogue>;
  readonly say: ReadonlySignal<ReportWords>;
  readonly prefixes: ReadonlySignal<Prefixes>;
  /** null where there is no plan. Not to be shown while the answer is covered. */
  readonly analysis: ReadonlySignal<Analysis | null>;
  /** The version with blanks, for students. */
  readonly isForStudents: Signal<boolean>;
}

/** Of the address: a link may lead straight to the version with blanks. */
const STUDENTS = '#students';

export function createReport(bench: Bench): Report {
  const settings = loadSettings();
  const isForStudents = signal(location.hash === STUDENTS);
  isForStudents.subscribe((is) => {
    history.replaceState(null, '', is ? STUDENTS : location.pathname);
  });
  // Paper is light, whatever the device prefers.
  settings.isDark.subscribe(() => (document.documentElement.dataset['theme'] = 'light'));
  const say = computed(() => REPORT_WORDS[settings.language.value]);
  // A browser calls the printed file so.
  effect(() => {
    const session = bench.status.value?.session.name ?? 'Stillmark';
    document.title = `${say.value.title} · ${session}`;
  });
  return {
    bench,
    settings,
    words: settings.words,
    say,
    prefixes: computed(() => sessionPrefixes(bench.trials.value, bench.most.value)),
    analysis: computed(() => analysisOf(bench.experiment.value, bench.trials.value)),
    isForStudents,
  };
}
