/** The wiring page: four things to work out; the address names the one that is shown. */
import { useEffect, useState } from 'preact/hooks';
import type { Settings } from '../view/settings.ts';
import { DividerPanel } from './divider-panel.tsx';
import { KINDS, textsOf, type Form, type Kind } from './form.ts';
import { MeterPanel } from './meter-panel.tsx';
import { MonitorPanel } from './monitor-panel.tsx';
import type { PanelProps } from './panel.tsx';
import { ShuntPanel } from './shunt-panel.tsx';

const NAMES: Readonly<Record<Kind, string>> = {
  divider: 'Voltage, two resistors',
  shunt: 'Current, shunt and amplifier',
  monitor: 'Both, I²C monitor',
  meter: 'Check against a multimeter',
};

const PANELS: Readonly<Record<Kind, (props: PanelProps) => preact.ComponentChild>> = {
  divider: DividerPanel,
  shunt: ShuntPanel,
  monitor: MonitorPanel,
  meter: MeterPanel,
};

export function WiringPage({ form, settings }: { form: Form; settings: Settings }) {
  const ChosenPanel = PANELS[form.kind.value];
  return (
    <>
      <header class="top">
        <h1>What will it read, and how well?</h1>
        <a href="/">Bench</a>
        <div class="buttons">
          <button
            type="button"
            class="page-button"
            onClick={() => (settings.theme.value = settings.isDark.value ? 'light' : 'dark')}
          >
            {settings.isDark.value ? 'Light' : 'Dark'}
          </button>
        </div>
      </header>
      <main class="wiring">
        <nav class="choice kinds" aria-label="What to work out">
          {KINDS.map((kind) => (
            <button
              type="button"
              key={kind}
              aria-pressed={form.kind.value === kind}
              onClick={() => (form.kind.value = kind)}
            >
              {NAMES[kind]}
            </button>
          ))}
        </nav>
        <ChosenPanel form={form} />
        <footer class="cautions">
          <p>
            The drawings show the principle. Build it as docs/wiring.md draws it, with the parts that
            protect board and people. Extra-low voltage only, up to 30 V: never mains, not even to
            measure it. Follow your local rules, and ask a qualified person where you are not sure.
          </p>
        </footer>
        <SpokenResult form={form} />
      </main>
    </>
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
