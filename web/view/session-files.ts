/** Saving a session as a file, and taking one in. */
import { loadSessions, saveSession, sendSession, type Refusal } from '../feed/requests.ts';
import type { PageState } from './page-state.ts';
import type { Sessions } from './sessions.ts';

/** @param tell hears of what was refused */
export function sessionFiles(
  sessions: Sessions,
  tell: (refusal: Refusal | null) => void,
): Pick<PageState, 'save' | 'takeIn'> {
  return {
    save: (id) => {
      sessions.savingId.value = id;
      void saveSession(id).then((saved) => {
        sessions.savingId.value = null;
        if ('message' in saved) tell(saved);
        else keep(saved.file, saved.name);
      });
    },
    takeIn: (file) => {
      sessions.taken.value = null;
      void sendSession(file).then(async (taken) => {
        if ('message' in taken) return tell(taken);
        sessions.taken.value = taken;
        sessions.kept.value = await loadSessions();
      });
    },
  };
}

/** As a browser keeps what is downloaded. */
function keep(file: Blob, name: string): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // Not at once: some browsers begin to read it only after this turn.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
