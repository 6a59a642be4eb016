/** Inputs of a recording, written down part by part: a rotor with lag and quiet readings. */
import type { Command } from '#core/experiment/command.ts';
import type { Input } from '#core/inputs.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';

const RATE_HZ = 50;
export const LOAD_OHM = 20;

/** Builds the inputs of a recording, sample by sample, with the time that they take. */
export function script() {
  const inputs: Input[] = [];
  const random = createRandom(4);
  let at_s = 0;
  let voltage_V = 0;
  let hasWind = true;
  const push = (input: Input): void => void inputs.push(input);
  const us = (time_s: number): number => Math.round(time_s * 1e6) / 1e6;
  const builder = {
    inputs,
    now: () => us(at_s),
    open(columns = 'voltage_V,current_A,wind_mps') {
      hasWind = columns.includes('wind');
      const link = { source: 'serial', id: 'board-1', name: 'Board', clock: 'arrival', wholeFromStart: false } as const;
      push({ kind: 'opened', at_s: us(at_s), link });
      builder.line(columns);
      return builder;
    },
    line(text: string) {
      push({ kind: 'line', at_s: us(at_s), text });
      return builder;
    },
    say(command: Command) {
      push({ kind: 'command', at_s: us(at_s), command });
      return builder;
    },
    /** The rotor is on its way to this voltage, in wind that goes with it unless said otherwise. */
    level(target_V: number, length_s: number, wind = target_V === 0 ? 0 : 4) {
      for (let count = length_s * RATE_HZ; count > 0; count -= 1) {
        at_s += 1 / RATE_HZ;
        voltage_V += (target_V - voltage_V) * 0.04;
        const measured_V = voltage_V * (1 + 0.003 * normal(random)) + 0.0004 * normal(random);
        const wind_mps = wind === 0 ? 0 : wind + 0.02 * normal(random);
        const current_A = measured_V / LOAD_OHM;
        const readings = `${measured_V.toFixed(4)},${current_A.toFixed(5)}`;
        builder.line(hasWind ? `${readings},${wind_mps.toFixed(3)}` : readings);
      }
      return builder;
    },
    silence(length_s: number) {
      for (let count = length_s * 2; count > 0; count -= 1) {
        at_s += 0.5;
        push({ kind: 'tick', at_s: us(at_s) });
      }
      return builder;
    },
    /** Time passes unseen: neither lines nor ticks. */
    skip(length_s: number) {
      at_s += length_s;
      return builder;
    },
    close(reason: 'unplugged' | 'ended') {
      push({ kind: 'closed', at_s: us(at_s), reason });
      return builder;
    },
  };
  return builder;
}
