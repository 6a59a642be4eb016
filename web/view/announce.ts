import { computed, effect } from '@preact/signals';
import { inOneLine } from '../model/words.ts';
import { currentWords } from './current-words.ts';
import type { WatchState } from './watch-state.ts';

/** An instruction must last this long to be announced: what flickers is not news. */
const ANNOUNCE_AFTER_MS = 600;

/** One polite status line for screen readers, and the tab's title, when the instruction changes. */
export function announceStages(page: WatchState): void {
  const line = document.createElement('p');
  line.className = 'sr';
  line.setAttribute('role', 'status');
  document.body.append(line);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const instruction = computed(() => inOneLine(currentWords(page).lines));
  effect(() => {
    const said = instruction.value;
    clearTimeout(timer);
    timer = setTimeout(() => {
      line.textContent = `${said} ${currentWords(page).moving}`;
      document.title = `${said} · Stillmark`;
    }, ANNOUNCE_AFTER_MS);
  });
}
