/** What a trial was logged as, and what became of it. */
import { useEffect, useState } from 'preact/hooks';
import type { TrialView } from '#core/live-messages.ts';
import { historyLines } from '../model/history.ts';
import type { PageState } from '../view/page-state.ts';

export function History({ page, trial }: { page: PageState; trial: TrialView }) {
  const [revisions, setRevisions] = useState<readonly TrialView[]>([]);
  const { id, revision } = trial;
  useEffect(() => {
    let isWanted = true;
    void page.loadRevisions(id).then((found) => isWanted && setRevisions(found));
    return () => {
      isWanted = false;
    };
  }, [id, revision]);
  const lines = historyLines(revisions, page.prefixes.value, page.words.value);
  if (lines.length === 0) return null;
  return (
    <details class="history">
      <summary>{page.words.value.budget.history.title}</summary>
      <ol>
        {lines.map((line, i) => (
          <li key={i}>{line}</li>
        ))}
      </ol>
    </details>
  );
}
