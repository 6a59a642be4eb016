/** Saving a session as a file, and taking one in. */
import { loadSessions, saveSession, sendSession, type Refusal } from '../feed/requests.ts';
import { keepFile } from './keep-file.ts';
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
        else keepFile(saved.file, saved.name);
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
