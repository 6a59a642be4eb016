/** The wiring page: four things to work out; the address names the one that is shown. */
import { useEffect, useState } from 'preact/hooks';
import type { Settings } from '../view/settings.ts';
import { DividerPanel } from './divider-panel.tsx';
import { LanguageField } from '../view/language-choice.tsx';
import { WIRING_KINDS, type WiringKind } from '../words/wiring-words.ts';
import { textsOf, type Form } from './form.ts';
import { MeterPanel } from './meter-panel.tsx';
import { MonitorPanel } from './monitor-panel.tsx';
import type { PanelProps } from './panel.tsx';
import { ShuntPanel } from './shunt-panel.tsx';
import { Speech, spokenIn } from './speech.ts';

const PANELS: Readonly<Record<WiringKind, (props: PanelProps) => preact.ComponentChild>> = {
  divider: DividerPanel,
  shunt: ShuntPanel,
  monitor: MonitorPanel,
  meter: MeterPanel,
};

export function WiringPage({ form, settings }: { form: Form; settings: Settings }) {
  const ChosenPanel = PANELS[form.kind.value];
  const spoken = spokenIn(settings.language.value);
  const { say, words } = spoken;
  const { toLight, toDark } = words.top.header;
  document.title = `${say.page} · Stillmark`;
  return (
    <Speech.Provider value={spoken}>
      <header class="top">
        <h1>{say.heading}</h1>
        <a href="/">{say.toBench}</a>
        <div class="buttons">
          <LanguageField settings={settings} />
          <button
            type="button"
            class="page-button"
            onClick={() => (settings.theme.value = settings.isDark.value ? 'light' : 'dark')}
          >
            {settings.isDark.value ? toLight : toDark}
          </button>
        </div>
      </header>
      <main class="wiring">
        <nav class="choice kinds" aria-label={say.toWorkOut}>
          {WIRING_KINDS.map((kind) => (
            <button
              type="button"
              key={kind}
              aria-pressed={form.kind.value === kind}
              onClick={() => (form.kind.value = kind)}
            >
              {say.kind[kind]}
            </button>
          ))}
        </nav>
        <ChosenPanel form={form} />
        <footer class="cautions">
          <p>{say.cautions}</p>
        </footer>
        <SpokenResult form={form} />
      </main>
    </Speech.Provider>
  );
}

/** What is typed must rest this long before the result is read out. */
const SPEAK_AFTER_MS = 1000;

/** For screen readers: the sentence of the result, once the typing rests. */
function SpokenResult({ form }: { form: Form }) {
  const [said, setSaid] = useState('');
  const typed = JSON.stringify([form.kind.value, textsOf(form)]);
  useEffect(() => {
    const timer = setTimeout(() => {
      setSaid(document.querySelector('.result .sentence')?.textContent ?? '');
    }, SPEAK_AFTER_MS);
    return () => clearTimeout(timer);
  }, [typed, form.monitorRange.value, form.quantity.value, form.points.value]);
  return (
    <p class="sr" role="status">
      {said}
    </p>
  );
}
