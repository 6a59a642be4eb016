import { describe, expect, it } from 'vitest';
import { OFFER_LASTS_S, Passes } from '../../../server/network/passes.ts';

function begin(): { passes: Passes; later: (seconds: number) => void } {
  let now_s = 100;
  return { passes: new Passes(() => now_s), later: (seconds) => void (now_s += seconds) };
}

describe('a pass', () => {
  it('runs out when nobody takes it up, and is then of no use', () => {
    const { passes, later } = begin();
    const offer = passes.offer('Table 2');
    later(OFFER_LASTS_S - 1);
    expect(passes.list()).toMatchObject([{ state: 'offered', expiresIn_s: 1 }]);
    later(1);
    expect(passes.list()).toEqual([]);
    expect(passes.takeBySecret(offer?.secret ?? '', '192.0.2.9')).toBeNull();
    expect(passes.takeByCode(offer?.code ?? '', '192.0.2.9')).toBeNull();
  });

  it('once taken up does not run out', () => {
    const { passes, later } = begin();
    const held = passes.takeBySecret(passes.offer('Table 2')?.secret ?? '', '192.0.2.9');
    later(100 * OFFER_LASTS_S);
    expect(passes.holderOf(held?.credential ?? '', '192.0.2.9')).toMatchObject({ name: 'Table 2' });
  });

  it('is good only from the device that took it up', () => {
    const { passes } = begin();
    const held = passes.takeBySecret(passes.offer('Table 2')?.secret ?? '', '192.0.2.9');
    expect(passes.holderOf(held?.credential ?? '', '192.0.2.10')).toBeNull();
  });

  it('has secrets of 128 bits that are never the same, and keeps none of them', () => {
    const { passes } = begin();
    const offers = Array.from({ length: 6 }, (_, i) => passes.offer(`Table ${i}`));
    const secrets = offers.map((offer) => offer?.secret ?? '');
    expect(new Set(secrets).size).toBe(6);
    for (const secret of secrets) expect(Buffer.from(secret, 'base64url')).toHaveLength(16);
    for (const offer of offers) expect(offer?.code).toMatch(/^\d{6}$/);
    expect(JSON.stringify(passes.list())).not.toContain(secrets[0]);
  });

  it('a wrong code counts against all that are offered, none that is held', () => {
    const { passes } = begin();
    const held = passes.takeBySecret(passes.offer('Table 1')?.secret ?? '', '192.0.2.9');
    const offers = [passes.offer('Table 2'), passes.offer('Table 3')];
    const codes = new Set(offers.map((offer) => offer?.code));
    const wrong = ['000000', '111111', '222222'].find((code) => !codes.has(code)) ?? '';
    for (let i = 0; i < 1000; i++) expect(passes.takeByCode(wrong, '192.0.2.66')).toBeNull();
    for (const offer of offers) expect(passes.takeByCode(offer?.code ?? '', '192.0.2.9')).toBeNull();
    expect(passes.holderOf(held?.credential ?? '', '192.0.2.9')).not.toBeNull();
  });
});
