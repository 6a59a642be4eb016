/** Saving a session as a file, taking one in, and the plan of one that is kept. */
import { isRefusal, loadPlan, loadSessions, saveSession, sendSession, type Refusal } from '../feed/requests.ts';
import { formOf } from '../plan/form.ts';
import { fill, type Planning } from '../plan/planning.ts';
import { keepFile } from './keep-file.ts';
import type { PageState } from './page-state.ts';
import type { Sessions } from './sessions.ts';

/** @param tell hears of what was refused */
export function sessionFiles(
  { sessions, planning }: { readonly sessions: Sessions; readonly planning: Planning },
  tell: (refusal: Refusal | null) => void,
): Pick<PageState, 'save' | 'takeIn' | 'takePlan'> {
  return {
    takePlan: async (id) => {
      const plan = await loadPlan(id);
      if (plan === null) return;
      if (isRefusal(plan)) return tell(plan);
      sessions.isShown.value = false;
      fill(planning, formOf(plan));
      planning.isShown.value = true;
    },
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
