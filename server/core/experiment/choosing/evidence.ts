/** Which levels may still be the best by the evidence of all trials, which holds at every look. */
import type { Contrasts } from './contrast.ts';
import { differenceEvidence } from './difference-evidence.ts';
import { EVIDENCE_ERROR_SHARE } from './error-shares.ts';
import type { Fitted } from './fitted.ts';
import type { LevelKey } from './level-trial.ts';
import { stillPossible } from './still-possible.ts';

/** Those of the levels that turned. */
export function possibleByEvidence({ comparable: { levels }, contrasts }: Fitted): LevelKey[] {
  const still = stillPossible(evidenceAgainst(levels.length, contrasts), EVIDENCE_ERROR_SHARE);
  return levels.filter((_, place) => still[place]);
}

/** For each level an e-value against its being a best one: the mean of the others' over it. */
function evidenceAgainst(k: number, contrasts: Contrasts): number[] {
  const against = new Array<number>(k).fill(0);
  for (let a = 0; a < k; a++) {
    for (let b = 0; b < a; b++) {
      const contrast = contrasts(a, b);
      const { above, below } =
        contrast === null ? { above: 1, below: 1 } : differenceEvidence(contrast.student);
      against[b]! += above / (k - 1);
      against[a]! += below / (k - 1);
    }
  }
  return against;
}
