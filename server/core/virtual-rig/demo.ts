/**
 * The demonstration rig that runs when no board is attached: a small rotor with a lamp in a desk
 * fan's jet, its operator, and a board that sends Stillmark lines, 50 samples a second. The same
 * seed gives the same bytes, however they are asked for. Rig, levels and numbers are our own.
 */
import { formatFrame } from '#protocol/stillmark-line.ts';
import type { ChannelFrame, Frame, Request } from '#protocol/frame.ts';
import { nextVisit, type DemoOperator } from './demo-operator.ts';
import { createRandom } from './random.ts';
import { createRig, nextReading, type Reading, type Rig, type RigParameters } from './rig.ts';

export interface DemoRig {
  readonly rig: Rig;
  readonly operator: DemoOperator;
  announcement: readonly Frame[];
  /** Of the newest sample, by channel. */
  counts: readonly (number | null)[];
}

export const DEMO_RATE_HZ = 50;
export const DEMO_WIND_MPS = 4.1;
/** The blade angles that the operator tries, degrees from the rotor plane. */
export const DEMO_ANGLES_DEG: readonly number[] = [12, 20, 30, 42, 56];

const VOLTAGE_STEP_V = 0.004;
const CURRENT_STEP_A = 0.0001;
const WIND_STEP_MPS = 0.01;

export const DEMO_PARAMETERS: RigParameters = {
  angle_deg: 12,
  plant: {
    airDensity_kgpm3: 1.19,
    jet: {
      fanLag_s: 0.9,
      droop: 0.015,
      droopTime_s: 20,
      rotorIntensity: 0.03,
      pointIntensity: 0.06,
      integralTime_s: 0.12,
      wander: 0.003,
      wanderTime_s: 2,
    },
    rotor: {
      radius_m: 0.19,
      inertia_kgm2: 3.8e-4,
      startTorqueCoefficient: 0.12,
      windage_Nms2: 1.5e-7,
    },
    generator: {
      emfConstant_Vsprad: 0.06,
      resistance_Ohm: 9,
      staticTorque_Nm: 8e-4,
      runningTorque_Nm: 5e-4,
      ripple: 0.015,
      ripplesPerTurn: 10,
    },
    load: { kind: 'lamp', ratedVoltage_V: 4, ratedCurrent_A: 0.055 },
  },
  anemometer: { kind: 'pulses', windPerPulse_m: 0.02, gate_s: 0.5, lag_s: 0.4 },
  converter: {
    voltageStep_V: VOLTAGE_STEP_V,
    voltageOffset_V: 0,
    voltageRange_V: 16,
    currentStep_A: CURRENT_STEP_A,
    noise_steps: 0.5,
    spikeRate_Hz: 0,
    spikeSize: 0,
    dropoutRate_Hz: 0,
    dropoutLongest_s: 0,
    dropoutAs: 'missing',
  },
};

const OPERATOR_STREAM = 3;
const PERIOD_US = 1e6 / DEMO_RATE_HZ;

/** A demonstration rig just switched on. */
export function createDemoRig(seed: number): DemoRig {
  return {
    rig: createRig({ parameters: DEMO_PARAMETERS, events: [], rate_Hz: DEMO_RATE_HZ, seed }),
    operator: {
      random: createRandom(seed, OPERATOR_STREAM),
      plant: DEMO_PARAMETERS.plant,
      wind_mps: DEMO_WIND_MPS,
      angles_deg: DEMO_ANGLES_DEG,
      round_deg: [],
      plannedTo_s: 0,
    },
    announcement: announcementOf(seed),
    counts: [],
  };
}

/** The bytes that the board sends from where it stopped up to `to_s` after it was switched on. */
export function advance(demo: DemoRig, to_s: number): Uint8Array {
  const { rig, operator } = demo;
  const lines = rig.readingCount === 0 && to_s >= 0 ? demo.announcement.map(formatFrame) : [];
  while (rig.readingCount / rig.rate_Hz <= to_s) {
    while (operator.plannedTo_s <= rig.readingCount / rig.rate_Hz) {
      rig.events.push(...nextVisit(operator));
    }
    const sequence = rig.readingCount;
    demo.counts = countsOf(nextReading(rig));
    lines.push(formatFrame(sampleFrame(demo.counts, sequence)));
  }
  return bytesOf(lines);
}

/** What the board answers to a request. It keeps the pace that it was built with. */
export function answer(demo: DemoRig, request: Request): Uint8Array {
  const frames = request.kind === 'identify' ? [] : [answerFrame(demo, request)];
  return bytesOf([...frames, ...again(demo.announcement)].map(formatFrame));
}

function answerFrame(demo: DemoRig, request: Exclude<Request, { kind: 'identify' }>): Frame {
  if (request.kind === 'pace') return { kind: 'answer', request: 'pace', result: 'range' };
  const zero = demo.counts[request.channel - 1] ?? null;
  if (zero === null) return { kind: 'answer', request: 'zero', result: 'range' };
  demo.announcement = demo.announcement.map((frame) =>
    frame.kind === 'channel' && frame.number === request.channel ? { ...frame, zero } : frame,
  );
  return { kind: 'answer', request: 'zero', result: 'done' };
}

function again(announcement: readonly Frame[]): Frame[] {
  return announcement.map((frame) =>
    frame.kind === 'opening' ? { ...frame, cause: 'again' } : frame,
  );
}

function sampleFrame(counts: readonly (number | null)[], sequence: number): Frame {
  return {
    kind: 'sample',
    sequence: sequence % 2 ** 16,
    time: (sequence * PERIOD_US) % 2 ** 32,
    counts,
  };
}

function countsOf({ voltage_V, current_A, windSpeed_mps }: Reading): (number | null)[] {
  const counts = (value: number | null, step: number): number | null =>
    value === null ? null : Math.round(value / step);
  return [
    counts(voltage_V, VOLTAGE_STEP_V),
    counts(current_A, CURRENT_STEP_A),
    counts(windSpeed_mps, WIND_STEP_MPS),
  ];
}

/** What the board says of itself when it is switched on. */
function announcementOf(seed: number): Frame[] {
  return [
    { kind: 'opening', cause: 'boot', timeUnit: 'us', channelCount: 3 },
    {
      kind: 'identity',
      maker: 'Stillmark',
      model: 'virtual rig',
      serial: `seed ${seed}`,
      firmware: '1',
    },
    channel(1, 'voltage', 'V', VOLTAGE_STEP_V),
    channel(2, 'current', 'A', CURRENT_STEP_A),
    channel(3, 'windSpeed', 'mps', WIND_STEP_MPS),
    { kind: 'pace', period_us: PERIOD_US, shortest_us: PERIOD_US, longest_us: PERIOD_US },
  ];
}

function channel(number: number, quantity: string, unit: string, scale: number): ChannelFrame {
  return {
    kind: 'channel',
    number,
    quantity,
    unit,
    scale,
    zero: 0,
    gain: 1,
    offset: 0,
    gainUncertainty: null,
    offsetUncertainty: null,
  };
}

function bytesOf(lines: readonly string[]): Uint8Array {
  const text = lines.map((line) => `${line}\r\n`).join('');
  return Uint8Array.from({ length: text.length }, (_, i) => text.charCodeAt(i));
}
