/** Advice in plain English. Pages have words of their own for what an advice holds. */
import type { Advice, Reason } from './advise-next.ts';
import type { LevelKey } from './level-trial.ts';

/** What a level is called: 20 → "20°". */
export type NameOf = (level: LevelKey) => string;

/** One or two sentences: what is known, and what to do. */
export function adviceWords(advice: Advice, name: NameOf): string {
  const { kind, among, set, trialsNeeded } = advice;
  const names = listed(among.map(name));
  const about = aboutTrials(trialsNeeded);
  switch (kind) {
    case 'settled':
      return `Settled: ${names} is best. More runs won't change that.`;
    case 'tie':
      return (
        `${names} are too close to tell apart: at this scatter it would take ` +
        `${about ?? 'more trials than a lesson holds'}. Say that they tie.`
      );
    case 'run':
      break;
  }
  const runs = countsOf(set.map(({ level }) => name(level)));
  if (set.some(({ reason }) => reason.kind === 'untried')) {
    return `Run ${runs}: not every level has been tried yet.`;
  }
  if (set.some(({ reason }) => reason.kind === 'scatter')) {
    return `Set ${runs} anew and run again: only that shows how much a setting scatters.`;
  }
  return (
    `${names} can't be told apart yet. Next, run ${runs}.` +
    (about === null ? '' : ` It will take ${about} in all.`)
  );
}

/** Why this level. */
export function reasonWords(reason: Reason, name: NameOf): string {
  switch (reason.kind) {
    case 'untried':
      return 'not tried yet';
    case 'scatter':
      return 'set it anew, to see how much a setting scatters';
    case 'close':
      return `can't be told from ${name(reason.from)} yet`;
  }
}

/** Beyond this a number would pretend to know. */
const MANY = 100;

function aboutTrials(trials: number | null): string | null {
  if (trials === null) return null;
  return trials > MANY ? `more than ${MANY} more trials` : `about ${trials} more trials`;
}

/** "20° twice and 30° once": the names in their order with how often each comes. */
function countsOf(names: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  const different = new Set(counts.values()).size > 1 || [...counts.values()].some((n) => n > 1);
  const words = [...counts].map(([name, n]) => (different ? `${name} ${timesWord(n)}` : name));
  return listed(words);
}

function timesWord(count: number): string {
  return ['never', 'once', 'twice'][count] ?? `${count} times`;
}

function listed(words: readonly string[]): string {
  const [last = '', ...rest] = words.toReversed();
  return rest.length === 0 ? last : `${rest.toReversed().join(', ')} and ${last}`;
}
