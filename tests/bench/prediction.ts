import { drawRigs, USUAL_UNCERTAINTY } from '#core/rotor/doubt.ts';
import { operate, setBlades } from '#core/rotor/operating-point.ts';
import { predict } from '#core/rotor/prediction.ts';
import { rotorCoefficients } from '#core/rotor/rotor.ts';
import { createRandom } from '#core/virtual-rig/random.ts';
import { rigWith } from '../unit/rotor/rigs.ts';

const ANGLES_DEG = [5, 10, 15, 20, 30, 45, 60, 90];
const FINE_ANGLES_DEG = Array.from({ length: 19 }, (_, i) => 4 + 3 * i);
const DRAWS = 200;
const ROUNDS = 7;

/** Processor time of an operating point and of a sweep with its band, beside one torque alone. */
export function measurePrediction(): void {
  const rig = rigWith({ load: { kind: 'lamp', ratedVoltage_V: 2.5, ratedCurrent_A: 0.1 } });
  const draws = drawRigs(createRandom(1), DRAWS);
  const sets = ANGLES_DEG.map((angle_deg) => setBlades(rig, angle_deg));
  const torque_ms = bestOf(() => {
    for (const { blading } of sets) for (let i = 0; i < 100; i++) rotorCoefficients(blading, i / 20);
  }) / (100 * sets.length);
  const point_ms = bestOf(() => {
    for (const set of sets) for (let i = 0; i < 10; i++) operate(set);
  }) / (10 * sets.length);
  const vary = { length_m: [], blades: [], loadResistance_Ohm: [] };
  const known = { rig, vary, uncertainty: USUAL_UNCERTAINTY, draws };
  const sweep_ms = bestOf(() => predict({ ...known, angles_deg: ANGLES_DEG }));
  const fine_ms = bestOf(() => predict({ ...known, angles_deg: FINE_ANGLES_DEG }));
  console.log(`processor time, best of ${ROUNDS}, with a lamp:`);
  console.log(`  torque at one tip speed ratio: ${torque_ms.toFixed(3)} ms`);
  console.log(`  operating point from standstill: ${point_ms.toFixed(3)} ms, ${(point_ms / torque_ms).toFixed(0)} times that`);
  console.log(`  ${ANGLES_DEG.length} angles with a band of ${DRAWS} draws: ${sweep_ms.toFixed(0)} ms, ${(sweep_ms / point_ms).toFixed(0)} operating points`);
  console.log(`  ${FINE_ANGLES_DEG.length} angles with it: ${fine_ms.toFixed(0)} ms, ${(fine_ms / sweep_ms).toFixed(1)} times that`);
}

function bestOf(work: () => void): number {
  let best = Infinity;
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}
