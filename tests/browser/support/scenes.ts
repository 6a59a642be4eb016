/**
 * Scenes of a bench session, made up: a small rotor at 4 m/s, some 250 mW, seven trials behind it.
 * Threads come from the detector's own rule.
 */
import { NO_EXPERIMENT } from '#core/experiment/view.ts';
import type { LiveMessage, PlateauView, Samples, Status, TrialView } from '#core/live-messages.ts';
import { threadsOf } from '#core/signal/threads.ts';
import { ATTACHED_BOARD, statusOf } from '../../support/status.ts';
import { NOW_S, RATE_HZ, RESISTANCE_OHM, samplesAlong, type Course } from './scene-samples.ts';

export type Snapshot = Extract<LiveMessage, { type: 'snapshot' }>;
type Judgement = NonNullable<Snapshot['judgement']>;

/** 24 slices of 12 samples. */
const WINDOW_SAMPLES = 288;

const STILL_BEFORE: readonly Course[] = [
  { before_s: 90, target_V: 2.4, wind_mps: 4.1, tau_s: 1 },
  { before_s: 47, target_V: 0, wind_mps: 0, tau_s: 1.4 },
];

/** A judgement of the last 6 s, as the detector would put it. */
export function judge(
  samples: Samples,
  given: Partial<Judgement> & Pick<Judgement, 'phase'>,
): Judgement {
  const count = WINDOW_SAMPLES;
  const powers = samples.voltage_V.slice(-count).map((voltage, i) => {
    return (voltage ?? 0) * (samples.current_A.slice(-count)[i] ?? 0);
  });
  const mean = powers.reduce((sum, value) => sum + value, 0) / powers.length;
  const channels = (['voltage_V', 'current_A', 'windSpeed_mps'] as const).map((channel) => {
    const values = samples[channel].slice(-75).map((value) => value ?? 0);
    const level = values.reduce((sum, value) => sum + value, 0) / values.length;
    const slope_per_s = ((values.at(-1) ?? 0) - (values[0] ?? 0)) / 1.5;
    return { channel, motion: 'still' as const, level, slope_per_s };
  });
  return {
    time_s: NOW_S,
    channels,
    threads: threadsOf(powers, 0.02 * mean).map((thread) => ({ ...thread })),
    power_W: {
      mean,
      standardUncertainty: 0.006 * mean,
      degreesOfFreedom: 14,
      effectiveSampleSize: 15,
    },
    remaining_s: null,
    rotorStill: false,
    windBlows: true,
    cause: null,
    ...given,
  };
}

const measured = (value: number, standardUncertainty: number) => {
  return { value, standardUncertainty, degreesOfFreedom: 22 };
};

export function trial(id: number, power_mW: number, more: Partial<TrialView> = {}): TrialView {
  const power = power_mW / 1000;
  const voltage = Math.sqrt(power * RESISTANCE_OHM);
  return {
    id,
    recordingId: 3,
    revision: 2,
    state: 'final',
    recorded: true,
    start_s: NOW_S - 60 * (9 - id) - 20,
    end_s: NOW_S - 60 * (9 - id),
    declared_s: NOW_S - 60 * (9 - id) - 14,
    sampleCount: 1000,
    rotorStill: power_mW === 0,
    basis: 'settled',
    factors: {},
    runId: null,
    voltage_V: measured(voltage, 0.004 * voltage + 0.0005),
    current_A: measured(voltage / RESISTANCE_OHM, 0.0002),
    power_W: measured(power, 0.006 * power + 0.0002),
    windSpeed_mps: measured(4.08 + 0.013 * ((id * 7) % 9), 0.03),
    rotorSpeed_radps: null,
    ripple: null,
    speed: null,
    powerCoefficient: null,
    origin: 'board',
    simulated: false,
    struck: false,
    strikeReason: null,
    note: null,
    correction: null,
    recordedAt: `2026-03-14T14:${String(2 * id).padStart(2, '0')}:31+01:00`,
    checksum: '1c291ca3',
    ...more,
  };
}

export const TRIALS: readonly TrialView[] = [
  trial(1, 172),
  trial(2, 228),
  trial(3, 103),
  trial(4, 231),
  trial(5, 96),
  trial(6, 201, { struck: true, strikeReason: 'blade slipped' }),
  trial(7, 104),
  trial(8, 259),
];

const PLATEAU_8: PlateauView = {
  recordingId: 3,
  start_s: NOW_S - 60 - 14,
  end_s: NOW_S - 47.5,
  declared_s: NOW_S - 68,
  endReason: 'changed',
  sampleCount: 1000,
  rotorStill: false,
  trialId: 8,
  power_W: measured(0.259, 0.0016),
};

/** What a board with our grammar may have told of itself. */
export const ANNOUNCED: NonNullable<Status['board']> = {
  identity: { maker: 'Own workshop', model: 'bench-5V', serial: '31', firmware: '1.2' },
  pace: { period_us: 10_000, shortest_us: 5000, longest_us: 200_000 },
  channels: [
    announcedChannel(1, 'voltage', 'mV', { scale: 19.55, gainUncertainty: 0.006 }),
    announcedChannel(2, 'current', 'mA', { scale: 0.1220703125, zero: -37, gain: 1.0025 }),
    announcedChannel(3, 'windPulses', 'count', { isRead: false, canZero: false }),
  ],
  zeroing: null,
};

type AnnouncedChannel = NonNullable<Status['board']>['channels'][number];

function announcedChannel(
  number: number,
  quantity: string,
  unit: string,
  more: Partial<AnnouncedChannel>,
): AnnouncedChannel {
  return {
    number,
    quantity,
    unit,
    scale: 1,
    zero: 0,
    gain: 1,
    offset: 0,
    gainUncertainty: null,
    offsetUncertainty: null,
    isRead: true,
    canZero: true,
    ...more,
  };
}

export function status(more: Partial<Status> = {}): Status {
  return statusOf({ recordingId: 3, clockDrift_ppm: 12, ...more });
}

function snapshot(
  samples: Samples,
  judgement: Judgement | null,
  more: Partial<Snapshot> = {},
): Snapshot {
  return {
    type: 'snapshot',
    status: status(),
    trials: [...TRIALS],
    plateaus: [PLATEAU_8],
    openSince_s: null,
    samples,
    judgement,
    experiment: NO_EXPERIMENT,
    ...more,
  };
}

const moved = (
  judgement: Judgement,
  motions: Partial<Record<string, 'rising' | 'falling' | 'unsteady'>>,
): Judgement => ({
  ...judgement,
  channels: judgement.channels.map((one) => ({ ...one, motion: motions[one.channel] ?? 'still' })),
});

const spinUp = (before_s: number, more: Partial<Course> = {}): readonly Course[] => [
  ...STILL_BEFORE,
  { before_s, target_V: 2.312, wind_mps: 4.1, tau_s: 2, ...more },
];

const FLAT: readonly Course[] = [{ before_s: 90, target_V: 0, wind_mps: 0 }];
const RUNNING = samplesAlong(spinUp(22));
const CLOSED: Snapshot['samples'] = { time_s: [], voltage_V: [], current_A: [], windSpeed_mps: [] };

function cut(samples: Samples, ago_s: number): Samples {
  const keep = samples.time_s.length - ago_s * RATE_HZ;
  return {
    time_s: samples.time_s.slice(0, keep),
    voltage_V: samples.voltage_V.slice(0, keep),
    current_A: samples.current_A.slice(0, keep),
    windSpeed_mps: samples.windSpeed_mps.slice(0, keep),
  };
}

export const LOGGED_9 = trial(9, 243, {
  state: 'logged',
  revision: 1,
  start_s: NOW_S - 13,
  end_s: NOW_S,
  declared_s: NOW_S - 8,
});

const cutOff = (port: Status['port'], health: Status['health'] = 'closed'): Snapshot =>
  snapshot(
    cut(RUNNING, 4),
    { ...judge(cut(RUNNING, 4), { phase: 'settled' }), time_s: NOW_S - 4 },
    { status: status({ port, health }) },
  );

function scenes(): Record<string, Snapshot> {
  const waiting = samplesAlong(STILL_BEFORE);
  const spinning = samplesAlong(spinUp(2.6));
  const settling = samplesAlong(spinUp(10.5));
  const disturbed = samplesAlong([
    ...spinUp(30),
    { before_s: 4, target_V: 2.06, wind_mps: 3.9, tau_s: 0.7 },
  ]);
  const stopping = samplesAlong([
    ...spinUp(30),
    { before_s: 2, target_V: 0, wind_mps: 0, tau_s: 1.4 },
  ]);
  const hunting = samplesAlong(spinUp(45, { swing: { share: 0.06, period_s: 3.6 } }));
  const settled = judge(RUNNING, { phase: 'settled' });
  const logged = snapshot(RUNNING, settled, {
    trials: [...TRIALS, LOGGED_9],
    openSince_s: NOW_S - 13,
  });
  return {
    waiting: snapshot(waiting, judge(waiting, { phase: 'idle' })),
    'spinning-up': snapshot(
      spinning,
      moved(judge(spinning, { phase: 'moving' }), { voltage_V: 'rising', current_A: 'rising' }),
    ),
    settling: snapshot(
      settling,
      moved(judge(settling, { phase: 'settling' }), { current_A: 'rising' }),
    ),
    hold: snapshot(
      RUNNING,
      judge(RUNNING, {
        phase: 'settling',
        remaining_s: 2.6,
        threads: settled.threads.map(({ power_W }) => ({ power_W, joined: true })),
      }),
    ),
    still: snapshot(RUNNING, settled, { openSince_s: NOW_S - 3.4 }),
    logged,
    disturbed: snapshot(disturbed, null),
    'running-down': snapshot(
      stopping,
      moved(judge(stopping, { phase: 'moving' }), {
        voltage_V: 'falling',
        current_A: 'falling',
        windSpeed_mps: 'falling',
      }),
      {
        plateaus: [
          PLATEAU_8,
          {
            ...PLATEAU_8,
            start_s: NOW_S - 14,
            end_s: NOW_S - 2,
            trialId: 9,
            power_W: measured(0.243, 0.002),
          },
        ],
        trials: [...TRIALS, trial(9, 243)],
      },
    ),
    unsettled: snapshot(
      hunting,
      moved(judge(hunting, { phase: 'unsettled', cause: 'cycle' }), {
        voltage_V: 'unsteady',
        current_A: 'unsteady',
      }),
    ),
    unplugged: cutOff({ phase: 'unplugged', board: ATTACHED_BOARD }),
    silent: cutOff({ phase: 'open', board: ATTACHED_BOARD }, 'silent'),
    busy: cutOff({
      phase: 'refused',
      board: ATTACHED_BOARD,
      code: 'busy',
      message:
        'Another program has this port open. Close it there; this page takes the board up by itself.',
    }),
    denied: cutOff({
      phase: 'refused',
      board: ATTACHED_BOARD,
      code: 'denied',
      message:
        'This account may not open the port. Run: sudo usermod -aG dialout $USER, then log out and in.',
    }),
    starting: snapshot(CLOSED, null, {
      status: status({
        port: { phase: 'opening', board: ATTACHED_BOARD },
        health: 'closed',
        sampleRate_Hz: null,
      }),
    }),
    'no-board': snapshot(CLOSED, null, {
      status: status({ port: { phase: 'searching' }, health: 'closed', sampleRate_Hz: null }),
    }),
    unreadable: snapshot(CLOSED, null, {
      status: status({ health: 'unreadable', sampleRate_Hz: null }),
    }),
    unmapped: snapshot(CLOSED, null, {
      status: status({
        health: 'unmapped',
        sampleRate_Hz: null,
        unnamedFields: ['48211', '2.314', '105.2', '4.08'],
      }),
    }),
    'no-trials': snapshot(samplesAlong(FLAT), judge(samplesAlong(FLAT), { phase: 'idle' }), {
      trials: [],
      plateaus: [],
    }),
    simulated: {
      ...logged,
      status: status({ simulated: true, port: { phase: 'simulated', seed: 1 } }),
      trials: logged.trials.map((one) => ({
        ...one,
        simulated: true,
        origin: 'simulated' as const,
      })),
    },
    'did-not-turn': snapshot(
      samplesAlong([...STILL_BEFORE, { before_s: 22, target_V: 0, wind_mps: 4.1 }], 0),
      judge(samplesAlong(FLAT), { phase: 'settled' }),
      {
        trials: [
          ...TRIALS,
          {
            ...LOGGED_9,
            ...trial(9, 0),
            state: 'logged',
            rotorStill: true,
            power_W: measured(0, 0.0003),
          },
        ],
        openSince_s: NOW_S - 13,
      },
    ),
    'saving-stopped': snapshot(RUNNING, settled, {
      openSince_s: NOW_S - 13,
      status: status({
        store: {
          ok: false,
          message:
            'The disk is full. Make room; saving goes on by itself, and nothing is lost meanwhile.',
        },
      }),
    }),
    offered: snapshot(waiting, judge(waiting, { phase: 'idle' }), {
      status: status({ simulated: true, port: { phase: 'simulated', seed: 1 }, offers: [ATTACHED_BOARD] }),
    }),
  };
}

export const SCENES = scenes();

/** A bump shows only to a page that has watched: the stretch closes, the wind blows on. */
function bump(): readonly LiveMessage[] {
  const { samples } = SCENES['disturbed'] ?? { samples: CLOSED };
  const plateau = {
    ...PLATEAU_8,
    start_s: NOW_S - 14,
    end_s: NOW_S - 4,
    trialId: null,
    power_W: measured(0.243, 0.002),
  };
  const judgement = moved(judge(samples, { phase: 'moving' }), {
    voltage_V: 'unsteady',
    windSpeed_mps: 'unsteady',
  });
  return [
    { type: 'closed', plateau },
    { type: 'judgement', judgement },
  ];
}

/** What a page is sent for a scene, its status changed by `more`: a snapshot and what follows. */
export function messagesOf(name: string, more: Partial<Status> = {}): LiveMessage[] {
  const scene = SCENES[name];
  if (scene === undefined) throw new Error(`there is no scene ${name}`);
  return [{ ...scene, status: { ...scene.status, ...more } }, ...(name === 'disturbed' ? bump() : [])];
}
