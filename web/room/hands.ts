/**
 * The room has no controls. A click anywhere, or a key, lets it speak; M mutes; D turns light to
 * dark.
 */
import type { ReadonlySignal } from '@preact/signals';
import type { WatchState } from '../view/watch-state.ts';
import type { Speaker } from '../voice/speaker.ts';

export function listenToRoom(
  { settings }: WatchState,
  speaker: Speaker,
  isOn: ReadonlySignal<boolean>,
): void {
  addEventListener('pointerdown', () => {
    if (!isOn.value) speaker.toggle();
  });
  addEventListener('keydown', ({ key, ctrlKey, metaKey, altKey, repeat }) => {
    if (ctrlKey || metaKey || altKey || repeat) return;
    switch (key.toLowerCase()) {
      case 'd':
        settings.theme.value = settings.isDark.value ? 'light' : 'dark';
        break;
      case 'm':
        settings.soundOn.value = !settings.soundOn.value;
        break;
      case 'v':
        speaker.toggle();
        break;
      default:
        if (!isOn.value) speaker.toggle();
    }
  });
}
