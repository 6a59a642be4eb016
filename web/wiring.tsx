/** The wiring page: what divider, shunt or monitor will read and how well, and what goes into the sketch. */
import { render } from 'preact';
import { config } from 'zod';
import './base.css';
import './bench.css';
import './wiring.css';
import { loadSettings } from './view/settings.ts';
import { createForm, followAddress, followLanguage } from './wiring/form.ts';
import { WiringPage } from './wiring/page.tsx';

// The page's content policy forbids making code from text, which zod would otherwise try.
config({ jitless: true });

const root = document.querySelector<HTMLElement>('#wiring');
if (root !== null) {
  const settings = loadSettings();
  const form = createForm(settings.words);
  followAddress(form);
  followLanguage(form);
  render(<WiringPage form={form} settings={settings} />, root);
}
