/**
 * The demonstration rig that runs when no board is attached: a small rotor with a lamp in a desk
 * fan's jet, its operator, and a board that sends Stillmark lines, 50 samples a second. The same
 * seed gives the same bytes, however they are asked for. Rig, levels and numbers are our own.
 */
import { formatFrame } from '#protocol/stillmark-line.ts';
import type { ChannelFrame, Frame, Request } from '#protocol/frame.ts';
import { nextVisit, type DemoOperator } from './demo-operator.ts';
import {
  createLedOperator,
  obey,
  type CableEvent,
  type Deed,
  type Instruction,
  type LedOperator,
  type PressEvent,
} from './led-operator.ts';
import { createRandom } from './random.ts';
import { createRig, nextReading, type Reading, type Rig, type RigParameters, type TimedEvent } from './rig.ts';

export interface DemoRig {
  readonly rig: Rig;
  readonly operator: DemoOperator;
  readonly led: LedOperator;
  /** Everything that has been done to the plant, and is to be. */
  readonly history: TimedEvent[];
  /** What is to happen to the cable and the board's button, in order of time. */
  readonly cable: CableEvent[];
  readonly presses: PressEvent[];
  pressCount: number;
  isPluggedIn: boolean;
  isLed: boolean;
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
const LED_OPERATOR_STREAM = 4;
const PERIOD_US = 1e6 / DEMO_RATE_HZ;

/** A demonstration rig just switched on. */
export function createDemoRig(seed: number): DemoRig {
  const { plant, angle_deg } = DEMO_PARAMETERS;
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
    led: createLedOperator({
      random: createRandom(seed, LED_OPERATOR_STREAM),
      rotor: plant.rotor,
      wind_mps: DEMO_WIND_MPS,
      angle_deg,
    }),
    history: [],
    cable: [],
    presses: [],
    pressCount: 0,
    isPluggedIn: true,
    isLed: false,
    announcement: announcementOf(seed),
    counts: [],
  };
}

/**
 * The bytes that the board sends from where it stopped up to `to_s` after it was switched on. With
 * a plan the operator follows the instruction, which is looked at once: ask for a tenth of a second
 * at a time then. The cable, too, comes out and goes in between two calls only.
 */
export function advance(demo: DemoRig, to_s: number, instruction?: Instruction): Uint8Array {
  const { rig } = demo;
  const lines = rig.readingCount === 0 && to_s >= 0 ? demo.announcement.map(formatFrame) : [];
  const led = instruction?.step === 'no-plan' ? undefined : instruction;
  handOver(demo, led !== undefined);
  if (led !== undefined) carryOut(demo, obey(demo.led, led, timeOf(demo)));
  if (takeCable(demo)) lines.push(...again(demo.announcement).map(formatFrame));
  while (timeOf(demo) <= to_s) {
    while (!demo.isLed && demo.operator.plannedTo_s <= timeOf(demo)) {
      carryOut(demo, nextVisit(demo.operator));
    }
    const sequence = rig.readingCount;
    demo.counts = countsOf(nextReading(rig));
    if (!demo.isPluggedIn) continue;
    lines.push(formatFrame(sampleFrame(demo.counts, sequence)));
    lines.push(...takePresses(demo).map(formatFrame));
  }
  return bytesOf(lines);
}

function timeOf({ rig }: DemoRig): number {
  return rig.readingCount / rig.rate_Hz;
}

function carryOut(demo: DemoRig, deeds: readonly Deed[]): void {
  for (const { at_s, event } of deeds) {
    if (event.kind === 'cable') demo.cable.push({ at_s, event });
    else if (event.kind === 'strike') demo.presses.push({ at_s, event });
    else schedule(demo, { at_s, event });
  }
}

/** Two people's deeds may cross: a bump, and the fan that is stopped meanwhile. */
function schedule({ rig, history }: DemoRig, event: TimedEvent): void {
  const later = rig.events.findIndex(({ at_s }) => at_s > event.at_s);
  rig.events.splice(later < 0 ? rig.events.length : later, 0, event);
  history.push(event);
}

/** From the operator who goes through the angles to the one who follows a plan, or back. */
function handOver(demo: DemoRig, isLed: boolean): void {
  if (isLed === demo.isLed) return;
  const { rig, operator, led } = demo;
  demo.isLed = isLed;
  const dropped = new Set(rig.events.splice(0));
  const done = demo.history.filter((event) => !dropped.has(event));
  demo.history.splice(0, demo.history.length, ...done);
  led.fanIsOn = rig.plant.fanSetting_mps > 0;
  operator.plannedTo_s = timeOf(demo);
  schedule(demo, { at_s: timeOf(demo), event: { kind: 'obstruction', passes: 1 } });
}

/** Frames of the presses of the board's button that are due. */
function takePresses(demo: DemoRig): Frame[] {
  const frames: Frame[] = [];
  while (demo.presses[0] && demo.presses[0].at_s <= timeOf(demo)) {
    demo.presses.shift();
    demo.pressCount += 1;
    const time = ((demo.rig.readingCount - 1) * PERIOD_US) % 2 ** 32;
    frames.push({ kind: 'button', number: demo.pressCount, time, button: 'strike' });
  }
  return frames;
}

/** Takes what has happened to the cable by now. Returns whether it has just been put in. */
function takeCable(demo: DemoRig): boolean {
  const before = demo.isPluggedIn;
  while (demo.cable[0] && demo.cable[0].at_s <= timeOf(demo)) {
    demo.isPluggedIn = demo.cable.shift()!.event.isIn;
  }
  return demo.isPluggedIn && !before;
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
