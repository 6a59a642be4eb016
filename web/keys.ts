/**
 * Keys: each does what a button on the page does. Letters and digits can be switched off and never
 * act in text fields; a key that was taught does what it was taught, whatever it did before.
 */
import { actionFor, type ActionName } from './view/actions.ts';
import { toggleTheme } from './view/header.tsx';
import { togglePlan } from './plan/planning.ts';
import { chooseAlong, finishMove } from './view/operator.ts';
import { chosenTrial, type PageState } from './view/page-state.ts';
import { openQuestion } from './view/question-line.tsx';
import { KEY_ACTIONS, withTaught } from './model/taught-keys.ts';

type Act = () => void;

export function listenToKeys(page: PageState): void {
  document.addEventListener('keydown', (event) => {
    const action = event.repeat && !event.key.startsWith('Arrow') ? null : actionOf(event, page);
    if (action === null) return;
    event.preventDefault();
    action();
  });
}

function actionOf(event: KeyboardEvent, page: PageState): Act | null {
  if (page.operator.teaching.value !== null) return teach(event, page);
  if (isTextField(event.target) || event.altKey) return null;
  if (event.ctrlKey || event.metaKey) {
    return event.key.toLowerCase() === 'z' ? actionFor(page, 'undo') : null;
  }
  if (pressesControl(event, page)) return null;
  return (
    taughtAction(event.key, page) ??
    choosingAction(event.key, page) ??
    arrowAction(event.key, page) ??
    (page.settings.lettersOn.value ? letterAction(event.key, page) : null)
  );
}

/** Keys that only go with others, or that lead away. */
const NOT_TAUGHT: readonly string[] = ['Shift', 'Control', 'Alt', 'Meta', 'CapsLock', 'Tab'];

function teach({ key }: KeyboardEvent, { operator, settings }: PageState): Act | null {
  const action = operator.teaching.value;
  if (action === null || NOT_TAUGHT.includes(key)) return null;
  return () => {
    if (key !== 'Escape') settings.taught.value = withTaught(settings.taught.value, action, key);
    operator.teaching.value = null;
  };
}

/** A key that was taught is the operator's own wish: the switch for letters is not about it. */
function taughtAction(key: string, page: PageState): Act | null {
  const { taught } = page.settings;
  const name = KEY_ACTIONS.find((action) => taught.value[action] === key);
  if (name === undefined) return null;
  return actionFor(page, name) ?? (() => undefined);
}

function isTextField(target: EventTarget | null): boolean {
  return [HTMLInputElement, HTMLTextAreaElement, HTMLSelectElement].some(
    (kind) => target instanceof kind,
  );
}

function isControl(target: EventTarget | null): boolean {
  return target instanceof HTMLButtonElement || target instanceof HTMLAnchorElement;
}

/** Space and Enter belong to the button that has the focus, but Enter first ends a move in hand. */
function pressesControl({ key, target }: KeyboardEvent, { operator }: PageState): boolean {
  if ((key !== ' ' && key !== 'Enter') || !isControl(target)) return false;
  const isMoving = (operator.choosing.value?.trialId ?? null) !== null;
  const isAnswer = target instanceof Element && target.closest('.run-line') !== null;
  return key === ' ' || !isMoving || isAnswer;
}

/** While a run is being chosen, arrows go along the plan. */
function choosingAction(key: string, page: PageState): Act | null {
  const { operator, bench } = page;
  const choosing = operator.choosing.value;
  if (choosing === null) return null;
  switch (key) {
    case 'ArrowLeft':
      return () => chooseAlong(operator, bench.experiment.value, -1);
    case 'ArrowRight':
      return () => chooseAlong(operator, bench.experiment.value, 1);
    case 'Escape':
      return () => (operator.choosing.value = null);
    case 'Enter':
      return choosing.trialId === null ? null : () => finishMove(operator, choosing.runId);
    case '0':
      return choosing.trialId === null ? null : () => finishMove(operator, null);
    default:
      return null;
  }
}

function arrowAction(key: string, page: PageState): Act | null {
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

const LETTERS: Readonly<Record<string, ActionName>> = {
  l: 'log',
  w: 'wait',
  i: 'next',
  s: 'strike',
  a: 'again',
  n: 'note',
  u: 'move',
  z: 'undo',
  c: 'cover',
  k: 'key-in',
  t: 'bring-in',
};

function letterAction(key: string, page: PageState): Act | null {
  const letter = key.toLowerCase();
  const name = LETTERS[letter];
  if (name !== undefined) return actionFor(page, name);
  if (/^[1-9]$/.test(letter)) return openQuestion(page)?.answers[Number(letter) - 1]?.give ?? null;
  switch (letter) {
    case ' ':
      return () => (page.drawing.paused.value = !page.drawing.paused.value);
    case 'd':
      return () => toggleTheme(page);
    case 'm':
      return () => (page.settings.soundOn.value = !page.settings.soundOn.value);
    case 'v':
      return () => page.speaker.toggle();
    case 'x':
      return () => standOtherwise(page);
    case 'b':
      return () => useOffered(page);
    case 'q':
      return () => togglePlan(page);
    default:
      return null;
  }
}

/** The answer plot in its next form. */
function standOtherwise({ acrossBy, acrossChosen, acrossWays }: PageState): void {
  const ways = acrossWays.value;
  const at = ways.findIndex((way) => way === acrossBy.value);
  acrossChosen.value = ways[(at + 1) % ways.length] ?? null;
}

function useOffered(page: PageState): void {
  const offered = page.bench.status.value?.offers[0];
  if (offered !== undefined) page.useBoard(offered.id);
}
