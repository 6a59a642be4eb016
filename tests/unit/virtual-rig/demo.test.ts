import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseFrame } from '#protocol/stillmark-line.ts';
import { steadyCircuit } from '#core/rotor/circuit.ts';
import {
  advance,
  createDemoRig,
  DEMO_ANGLES_DEG,
  DEMO_PARAMETERS,
  DEMO_WIND_MPS,
} from '#core/virtual-rig/demo.ts';
import { nextVisit } from '#core/virtual-rig/demo-operator.ts';
import { steadySpeed_radps } from '#core/virtual-rig/steady-state.ts';

function textOf(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('ascii');
}

function framesOf(seed: number, to_s: number) {
  const lines = textOf(advance(createDemoRig(seed), to_s)).split('\r\n');
  expect(lines.at(-1)).toBe('');
  return lines.slice(0, -1).map(parseFrame);
}

describe('demonstration rig', () => {
  it('sends the same bytes however they are asked for', () => {
    const whole = textOf(advance(createDemoRig(3), 90));
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 90, noNaN: true }), { maxLength: 30 }),
        (times) => {
          const demo = createDemoRig(3);
          const parts = [...times, 90].map((to_s) => textOf(advance(demo, to_s)));
          expect(parts.join('') === whole).toBe(true);
        },
      ),
      { numRuns: 10 },
    );
  });

  it('sends other bytes for another seed', () => {
    expect(textOf(advance(createDemoRig(3), 20))).not.toBe(textOf(advance(createDemoRig(4), 20)));
  });

  it('says nothing before it is switched on', () => {
    expect(advance(createDemoRig(3), -1)).toHaveLength(0);
  });

  it('announces itself, then sends 50 good samples a second without a gap', () => {
    const frames = framesOf(1, 60);
    expect(frames[0]).toMatchObject({ kind: 'opening', channelCount: 3, timeUnit: 'us' });
    expect(frames[1]).toMatchObject({ kind: 'identity', maker: 'Stillmark', model: 'virtual rig' });
    expect(frames.slice(2, 5).map((frame) => 'quantity' in frame && frame.quantity)).toEqual([
      'voltage',
      'current',
      'windSpeed',
    ]);
    const samples = frames.slice(6);
    expect(samples).toHaveLength(60 * 50 + 1);
    samples.forEach((frame, i) => {
      expect(frame).toMatchObject({ kind: 'sample', sequence: i, time: i * 20_000 });
    });
  });

  it('wraps its sequence number and its clock', () => {
    const last = textOf(advance(createDemoRig(1), 4400).slice(-60))
      .split('\r\n')
      .at(-2);
    expect(parseFrame(last!)).toMatchObject({
      kind: 'sample',
      sequence: (4400 * 50) % 2 ** 16,
      time: (4400 * 1e6) % 2 ** 32,
    });
  });

  it('lights its lamp with tens to hundreds of milliwatts, less at steeper angles', () => {
    const { generator, load } = DEMO_PARAMETERS.plant;
    const powers_W = DEMO_ANGLES_DEG.map((angle_deg) => {
      const speed = steadySpeed_radps(DEMO_PARAMETERS.plant, {
        wind_mps: DEMO_WIND_MPS,
        angle_deg,
      });
      const { voltage_V, current_A } = steadyCircuit(
        generator,
        load,
        speed * generator.emfConstant_Vsprad,
      );
      expect(voltage_V).toBeGreaterThan(0.5);
      expect(voltage_V).toBeLessThan(6);
      return voltage_V * current_A;
    });
    expect(powers_W).toHaveLength(5);
    expect(powers_W).toEqual([...powers_W].sort((a, b) => b - a));
    expect(powers_W[0]).toBeLessThan(0.4);
    expect(powers_W[4]).toBeGreaterThan(0.01);
  });

  it('visits every angle once in each round, fan off while blades are set', () => {
    const { operator } = createDemoRig(9);
    const angles_deg: number[] = [];
    let fan_mps = 0;
    for (let visit = 0; visit < 15; visit++) {
      for (const { event } of nextVisit(operator)) {
        if (event.kind === 'fan') fan_mps = event.wind_mps;
        if (event.kind !== 'angle') continue;
        expect(fan_mps).toBe(0);
        angles_deg.push(event.angle_deg);
      }
    }
    for (const round of [0, 5, 10]) {
      const visited = angles_deg.slice(round, round + 5).sort((a, b) => a - b);
      expect(visited).toEqual(DEMO_ANGLES_DEG);
    }
  });
});
