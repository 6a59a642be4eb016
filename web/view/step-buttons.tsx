/** What can be done at this step besides waiting: buttons that say their key. */
import type { Stage } from '../model/stage.ts';
import { actionFor, type ActionName } from './actions.ts';
import type { PageState } from './page-state.ts';
import { Key } from './run-line.tsx';

export function StepButtons({ page, stage }: { page: PageState; stage: Stage }) {
  const { run, trial, byHand } = page.words.value.bench;
  const { isWaiting } = page.bench.experiment.value;
  // Whoever has no board is told so where the board is missed.
  const isOffer = stage === 'no-board' || page.bench.status.value?.simulated === true;
  const logged = stage === 'logged' ? page.bench.loggedTrial.value : null;
  const offered: readonly (readonly [ActionName, string, string])[] = logged !== null
    ? [
        ['strike', trial.strike, 'S'],
        ['move', trial.move, 'U'],
        ['note', trial.note, 'N'],
      ]
    : [
        ['next', run.isSet, 'I'],
        ['log', run.logNow, 'L'],
        ['wait', isWaiting ? run.goOn : run.wait, 'W'],
        ['key-in', isOffer ? byHand.keyed.offer : byHand.keyed.open, 'K'],
      ];
  const shown = offered.flatMap(([name, words, letter]) => {
    const action = actionFor(page, name, logged);
    return action === null ? [] : [{ name, words, letter, action }];
  });
  return (
    <p class="step-buttons">
      {shown.map(({ name, words, letter, action }) => (
        <button key={name} type="button" class="underlined" data-action={name} onClick={action}>
          {words}
          {page.settings.lettersOn.value && <Key>{letter}</Key>}
        </button>
      ))}
    </p>
  );
}
