/** The question about a rig that will not settle: asked once a run, and there until it is answered. */
import { expect, it } from 'vitest';
import { follow } from '#core/experiment/conductor/command.ts';
import { createConductor, hear } from '#core/experiment/conductor/conductor.ts';
import { anglePlan } from '#core/experiment/plan/templates.ts';
import type { Verdict } from '#core/signal/plateau.ts';

function bench() {
  const conductor = createConductor();
  follow(conductor, { say: 'plan', plan: anglePlan(1) }, []);
  let time_s = 0;
  return {
    /** Five verdicts a second for some seconds; what is asked then. */
    listen(standing: Verdict['standing'], length_s: number) {
      const turns = standing !== 'idle';
      const cause = standing === 'unsettled' ? 'gusts' : null;
      const levels: Verdict['levels'] = [
        { channel: 'voltage_V', level: turns ? 2 : 0 },
        { channel: 'windSpeed_mps', level: turns ? 4 : 0 },
      ];
      for (let i = 0; i < 5 * length_s; i++) {
        time_s += 0.2;
        hear(conductor, { time_s, standing, cause, rotorStill: !turns, windBlows: turns, levels }, []);
      }
      return conductor.question?.kind ?? null;
    },
    waitOn: () => follow(conductor, { say: 'leave-it' }, []),
  };
}

it('stays while gusts come and go, and goes once the rig has settled', () => {
  const { listen } = bench();
  listen('idle', 10);
  expect(listen('seeking', 20)).toBeNull();
  expect(listen('unsettled', 1)).toBe('unsettled');
  expect(listen('seeking', 8)).toBe('unsettled');
  expect(listen('settled', 1)).toBeNull();
});

it('is not put again to who chose to wait, but at the next start of the fan', () => {
  const { listen, waitOn } = bench();
  listen('idle', 10);
  listen('seeking', 20);
  listen('unsettled', 1);
  waitOn();
  listen('seeking', 5);
  expect(listen('unsettled', 20)).toBeNull();
  listen('idle', 20);
  listen('seeking', 20);
  expect(listen('unsettled', 1)).toBe('unsettled');
});
