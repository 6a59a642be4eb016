import { describe, expect, it } from 'vitest';
import type { Status } from '#core/live-messages.ts';
import {
  numberWords,
  partOfIdentity,
  rateLimits,
  unannouncedWords,
  withUncertainty,
} from '../../../web/model/board.ts';
import { de } from '../../../web/words/de.ts';
import { en } from '../../../web/words/en.ts';
import { explanationOf } from '../../../web/model/words.ts';
import { statusOf } from '../../support/status.ts';

describe('the board in words', () => {
  it('gives announced numbers to six digits, with a true minus sign', () => {
    const written = [0.1220703125, -37, 1e-7, 19.55].map((value) => numberWords(value, en));
    expect(written).toEqual([
      '0.12207',
      '\u221237',
      '1e\u22127',
      '19.55',
    ]);
    expect(numberWords(19.55, de)).toBe('19,55');
  });

  it('tells an uncertainty that is zero from one that is not known', () => {
    expect(withUncertainty(1, 0, String, en.board)).toBe('1, u\u202f0');
    expect(withUncertainty(1, null, String, en.board)).toBe('1, u\u202fnot known');
  });

  // "0 where unknown": IEEE 488.2, response of *IDN?, as the grammar cites it.
  it('takes 0 in an identity for not known', () => {
    expect(['0', undefined, '31'].map((part) => partOfIdentity(part, en.board))).toEqual([
      'not known',
      'not known',
      '31',
    ]);
  });

  it('has no limits of pace where there is but one, or none that make sense', () => {
    const pace = { period_us: 10_000, shortest_us: 5000, longest_us: 200_000 };
    expect(rateLimits(pace)).toEqual({ low: 5, high: 200 });
    expect(rateLimits({ ...pace, longest_us: 5000 })).toBeNull();
    expect(rateLimits({ ...pace, longest_us: 4000 })).toBeNull();
    expect(rateLimits(null)).toBeNull();
  });

  it('says why there is nothing to show', () => {
    const said = (status: Status) => unannouncedWords(status, en);
    const version = { code: 'board-version', message: 'Version 2.' };
    expect(said(statusOf())).toContain('plain lines');
    expect(said(statusOf({ health: 'starting' }))).toContain('not said anything');
    expect(said(statusOf({ health: 'unreadable', notices: [version] }))).toBe('Version 2.');
    const port = { phase: 'replaying', file: 'a.csv' } as const;
    expect(said(statusOf({ port }))).toContain('no board');
  });
});

describe('the explanation of lines that can not be read', () => {
  const notices = [
    { code: 'channel-scale', message: 'The scale.' },
    { code: 'upkeep-failed', message: 'The drive.' },
  ];

  it('is the newest notice that tells of it', () => {
    expect(explanationOf(statusOf({ health: 'unmapped', notices }))).toMatchObject({ message: 'The scale.' });
  });

  it('is none while readings come, or nothing tells of it', () => {
    expect(explanationOf(statusOf({ notices }))).toBeNull();
    expect(explanationOf(statusOf({ health: 'unreadable' }))).toBeNull();
    expect(explanationOf(null)).toBeNull();
  });
});
