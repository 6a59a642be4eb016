/**
 * Keys: each does what a button on the page does. Letters can be switched off and never act in
 * text fields.
 */
import { chosenTrial, type PageState } from './view/page-state.ts';
import { toggleTheme } from './view/header.tsx';

export function listenToKeys(page: PageState): void {
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
    if (isTextField(event.target)) return;
    if (event.key === ' ' && isControl(event.target)) return;
    const action =
      arrowAction(event.key, page) ??
      (page.settings.lettersOn.value ? letterAction(event.key, page) : null);
    if (action === null) return;
    event.preventDefault();
    action();
  });
}

function isTextField(target: EventTarget | null): boolean {
  return [HTMLInputElement, HTMLTextAreaElement, HTMLSelectElement].some(
    (kind) => target instanceof kind,
  );
}

function isControl(target: EventTarget | null): boolean {
  return target instanceof HTMLButtonElement || target instanceof HTMLAnchorElement;
}

function arrowAction(key: string, page: PageState): (() => void) | null {
  if (key !== 'ArrowUp' && key !== 'ArrowDown') return null;
  return () => chooseNext(page, key === 'ArrowUp' ? 1 : -1);
}

/** Newest trials are on top, so up means a higher number. */
function chooseNext(page: PageState, step: number): void {
  const trials = page.bench.trials.value;
  const at = trials.findIndex(({ id }) => id === chosenTrial(page)?.id);
  const next = trials[Math.min(Math.max(at + step, 0), trials.length - 1)];
  // The newest stays "the newest", so that the choice follows trials to come.
  page.chosenId.value = next === undefined || next === trials.at(-1) ? null : next.id;
}

function letterAction(key: string, page: PageState): (() => void) | null {
  switch (key.toLowerCase()) {
    case ' ':
      return () => (page.drawing.paused.value = !page.drawing.paused.value);
    case 'd':
      return () => toggleTheme(page);
    case 'm':
      return () => (page.settings.soundOn.value = !page.settings.soundOn.value);
    case 'x':
      return () => (page.acrossBy.value = page.acrossBy.value === 'number' ? 'wind' : 'number');
    case 's':
      return () => strikeOrRestore(page);
    case 'n':
      return () => edit(page, 'note');
    case 'b':
      return () => useOffered(page);
    default:
      return null;
  }
}

function strikeOrRestore(page: PageState): void {
  const trial = chosenTrial(page);
  if (trial?.struck === true) page.act({ kind: 'restore', trialId: trial.id });
  else edit(page, 'strike');
}

function edit(page: PageState, kind: 'strike' | 'note'): void {
  const trial = chosenTrial(page);
  if (trial !== null) page.editing.value = { trialId: trial.id, kind };
}

function useOffered(page: PageState): void {
  const offered = page.bench.status.value?.offers[0];
  if (offered !== undefined) page.useBoard(offered.id);
}
