/** Answers about the highest point that need no numbers of their own. */
import type { Optimum } from './comparison-schema.ts';
import type { Words } from './words.ts';

export function none(statement: string): Optimum {
  return { kind: 'none', at: null, low: null, high: null, method: 'none', statement };
}

export function edgeAt(at: number, method: string, words: Words): Optimum {
  const statement = `The most ${words.response} is at the edge of what was tried, ${words.level(at)}: there may be more beyond.`;
  return { kind: 'edge', at, low: null, high: null, method, statement };
}

export function unbounded(method: string, words: Words): Optimum {
  const statement = `The trials don't show yet where the most ${words.response} lies: they bend too little for how much they wander.`;
  return { kind: 'unbounded', at: null, low: null, high: null, method, statement };
}
