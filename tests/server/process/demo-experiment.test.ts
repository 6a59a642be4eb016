/** `npm run demo:experiment`, the program itself: a whole experiment through the real server. */
import { expect, it } from 'vitest';
import { playDemonstration } from '../../support/server-process.ts';

it('plays a whole experiment hands-free, the same each time, though two at once slow each other', async () => {
  const play = () => playDemonstration('--seed', '3', '--json');
  const [one, other] = await Promise.all([play(), play()]);
  expect(one.code).toBe(0);
  const said = JSON.parse(one.stdout) as { right: number };
  expect(said).toEqual({
    runs: 15,
    right: expect.any(Number) as number,
    touches: 0,
    lost: 0,
    asked: expect.any(Number) as number,
  });
  // Of fifteen honest 95 % intervals more than three miss in five of a thousand (binomial).
  expect(said.right).toBeGreaterThanOrEqual(12);
  expect(other.stdout).toBe(one.stdout);
}, 60_000);

it.each([
  [['--seed', 'x'], '--seed'],
  [['--seed', '3', '--speed', '0'], '--speed'],
  [['--sed', '3'], '--sed'],
])('says what is wrong with %j', async (args, named) => {
  const { code, stdout, stderr } = await playDemonstration(...args);
  expect([code, stdout]).toEqual([2, '']);
  expect(stderr).toContain(named);
});
