/**
 * Everything between server and page, over WebSocket (`/live`) and HTTP (`/api/…`).
 * One schema each, shared by both ends; what does not fit is refused with the field named.
 */
import { z } from 'zod';
import { FAULT_KINDS } from '#protocol/frame.ts';
import { SampleRateSchema } from './configuration.ts';
import type { ClosedPlateau } from './events.ts';
import { BudgetSchema } from './experiment/budget/budget.ts';
import { TrialCoefficientSchema } from './experiment/budget/coefficient-of-trial.ts';
import { CORRECTABLE, LineSchema } from './experiment/correction.ts';
import { PlanSchema } from './experiment/plan/plan.ts';
import { measured } from './experiment/trial-life.ts';
import { SpeedAnswerSchema } from './experiment/speed/speed-of-trial.ts';
import { TrialSchema } from './experiment/trial.ts';
import { ExperimentViewSchema } from './experiment/view.ts';
import { ZERO_OUTCOMES } from './asking/zero-outcome.ts';
import { ChannelNumberSchema } from './inputs.ts';
import { CurrentMeansSchema, VoltageMeansSchema } from './instrument/instrument.ts';
import { BoardSchema, LinkHealthSchema, PortStateSchema } from './link.ts';
import { MeasuredValueSchema } from './metrology/measured-value.ts';
import { COLUMN_NAMES } from './reading/unnamed.ts';
import { CHANNELS } from './signal/sample.ts';

export const FaultCountsSchema = z.record(z.enum(FAULT_KINDS), z.number().int().nonnegative());
export type FaultCounts = z.infer<typeof FaultCountsSchema>;

const NumbersSchema = z.array(z.number().nullable());

/** Columns of equal length: samples in stream time, `null` where a reading is missing. */
export const SamplesSchema = z.object({
  time_s: z.array(z.number()),
  voltage_V: NumbersSchema,
  current_A: NumbersSchema,
  windSpeed_mps: NumbersSchema,
});
export type Samples = z.infer<typeof SamplesSchema>;

const EstimateSchema = z.object({
  mean: z.number(),
  standardUncertainty: z.number(),
  degreesOfFreedom: z.number(),
  effectiveSampleSize: z.number(),
});

export const JudgementSchema = z.object({
  time_s: z.number(),
  phase: z.enum(['idle', 'moving', 'settling', 'settled', 'unsettled']),
  channels: z
    .array(
      z.object({
        channel: z.enum(CHANNELS),
        motion: z.enum(['still', 'rising', 'falling', 'unsteady']),
        level: z.number(),
        slope_per_s: z.number(),
      }),
    )
    .readonly(),
  threads: z.array(z.object({ power_W: z.number(), joined: z.boolean() })).readonly(),
  power_W: EstimateSchema.nullable(),
  remaining_s: z.number().nullable(),
  rotorStill: z.boolean(),
  windBlows: z.boolean().nullable(),
  cause: z.enum(['cycle', 'gusts', 'drift']).nullable(),
});

/** A committed trial as the API shows it. */
export const TrialViewSchema = TrialSchema.omit({ recorded_s: true }).extend({
  /** RFC 3339, from the recording's wall-clock start; a label, not a measurement. */
  recordedAt: z.string(),
  /** CRC-32 of the stored row, eight hex digits. */
  checksum: z.string(),
});
export type TrialView = z.infer<typeof TrialViewSchema>;
export const TrialsResponseSchema = z.object({ trials: z.array(TrialViewSchema) });
export type TrialsResponse = z.infer<typeof TrialsResponseSchema>;
/** Answer to `GET /api/trials/ID/budget`; null for a trial without power. */
export const BudgetResponseSchema = z.object({
  budget: BudgetSchema.nullable(),
  /** Null for keyed readings. */
  check: z
    .object({
      /** Mean, standard uncertainty and the 95 % interval by random draws (JCGM 101), W. */
      drawn: z.object({
        mean: z.number(),
        standardUncertainty: z.number(),
        low: z.number(),
        high: z.number(),
      }),
      /** Value ± expanded uncertainty is as good; else the interval by draws is the better one. */
      isLinear: z.boolean(),
    })
    .nullable(),
  /** Of the wind's power, what became power at the load; or why that can't be told. */
  coefficient: TrialCoefficientSchema,
  /** How fast it turned, and by what that is known. */
  speed: SpeedAnswerSchema,
});
export type BudgetResponse = z.infer<typeof BudgetResponseSchema>;
/** Answer to `POST /api/actions`: the trial as it stands now. */
export const TrialResponseSchema = z.object({ trial: TrialViewSchema });
export type TrialResponse = z.infer<typeof TrialResponseSchema>;

export const PlateauViewSchema = z.object({
  /** The recording that its times belong to. */
  recordingId: z.number().int().positive(),
  start_s: z.number(),
  end_s: z.number(),
  declared_s: z.number(),
  endReason: z.enum(['changed', 'interrupted', 'end']),
  sampleCount: z.number().int(),
  rotorStill: z.boolean(),
  trialId: z.number().int().nullable(),
  power_W: MeasuredValueSchema.nullable(),
});
export type PlateauView = z.infer<typeof PlateauViewSchema>;

/** A closed plateau as the API shows it. */
export function plateauView(recordingId: number, plateau: ClosedPlateau): PlateauView {
  const { start_s, end_s, declared_s, endReason, sampleCount, rotorStill, trialId } = plateau;
  return {
    recordingId,
    start_s,
    end_s,
    declared_s,
    endReason,
    sampleCount,
    rotorStill,
    trialId,
    power_W: measured(plateau, 'power_W'),
  };
}

export const PlateausResponseSchema = z.object({ plateaus: z.array(PlateauViewSchema) });
export type PlateausResponse = z.infer<typeof PlateausResponseSchema>;
/** Answer to `GET /api/boards`: the serial devices seen now. */
export const BoardsResponseSchema = z.object({ boards: z.array(BoardSchema) });
export type BoardsResponse = z.infer<typeof BoardsResponseSchema>;

/** Names and numbers of a message, for a page that says it in its own language. */
const AboutSchema = z.array(z.string()).readonly().optional();

export const NoticeSchema = z.object({ code: z.string(), message: z.string(), about: AboutSchema });

/** What a board that speaks Stillmark lines has told of itself; in its own units, as it said it. */
export const AnnouncedBoardSchema = z.object({
  identity: z
    .object({ maker: z.string(), model: z.string(), serial: z.string(), firmware: z.string() })
    .nullable(),
  pace: z
    .object({ period_us: z.number(), shortest_us: z.number(), longest_us: z.number() })
    .nullable(),
  channels: z.array(
    z.object({
      number: z.number().int(),
      quantity: z.string(),
      unit: z.string(),
      scale: z.number(),
      zero: z.number().int(),
      gain: z.number(),
      offset: z.number(),
      /** Standard uncertainties; null where the board does not know them. */
      gainUncertainty: z.number().nullable(),
      offsetUncertainty: z.number().nullable(),
      /** False where it makes no sense, and where the program has no use for it. */
      isRead: z.boolean(),
      /** The board can be asked to take what it reads as zero. */
      canZero: z.boolean(),
    }),
  ),
  /** The newest zero that was asked for over this connection. */
  zeroing: z
    .object({
      channel: z.number().int(),
      isPending: z.boolean(),
      message: z.string().nullable(),
      outcome: z.enum(ZERO_OUTCOMES).optional(),
      about: AboutSchema,
    })
    .nullable(),
});
export type AnnouncedBoard = z.infer<typeof AnnouncedBoardSchema>;

/** The state of saving: anything but `ok` is a banner on every page. */
export const StoreStateSchema = z.object({
  ok: z.boolean(),
  message: z.string().nullable(),
  /** What hinders it; missing where more than one thing does, or none of those foreseen. */
  code: z.string().optional(),
  about: AboutSchema,
});
export type StoreState = z.infer<typeof StoreStateSchema>;

/** A stored session that is played again; nothing of it is stored. */
export const PlayingSchema = z.object({
  /** How much faster than it was recorded; null: as fast as it will go. */
  speed: z.number().positive().nullable(),
  /** When the recording that is played began, RFC 3339. */
  startedAt: z.string(),
  /** Which of how many, from 1. */
  recording: z.number().int().positive(),
  recordings: z.number().int().positive(),
});
export type Playing = z.infer<typeof PlayingSchema>;

export const StatusSchema = z.object({
  version: z.string(),
  session: z.object({ id: z.string(), name: z.string(), startedAt: z.string() }),
  /** The recording that runs now: live samples and judgements are in its stream time. */
  recordingId: z.number().int().positive(),
  simulated: z.boolean(),
  /** A stored session is played as a demonstration; null: what is shown is now. */
  playing: PlayingSchema.nullable(),
  port: PortStateSchema,
  health: LinkHealthSchema,
  /** While numbers arrive that nothing names: the newest line's, as they came. */
  unnamedFields: z.array(z.string()).readonly().nullable(),
  /** Names that the operator has given to the board's numbers, where they are in use. */
  namedColumns: z.array(z.string()),
  /** Learnt from the lines; null until known. */
  sampleRate_Hz: z.number().nullable(),
  /** What a board that can be set is asked for. */
  wantedSampleRate_Hz: z.number(),
  /** null: nothing known, or a board that sends plain lines. */
  board: AnnouncedBoardSchema.nullable(),
  /** Board clock against the laptop's, parts per million; null until known. */
  clockDrift_ppm: z.number().nullable(),
  /** Boards seen that are not in use: the page offers them. */
  offers: z.array(BoardSchema),
  faults: FaultCountsSchema,
  store: StoreStateSchema,
  /** Raised whenever a page may have other rights than before, or the network another state. */
  networkChange: z.number().int().nonnegative(),
  notices: z.array(NoticeSchema),
});
export type Status = z.infer<typeof StatusSchema>;

/** Server to page. */
export const LiveMessageSchema = z.discriminatedUnion('type', [
  /** The whole picture: on connecting, and whenever the page asks. */
  z.object({
    type: z.literal('snapshot'),
    status: StatusSchema,
    trials: z.array(TrialViewSchema),
    plateaus: z.array(PlateauViewSchema),
    /** Start of the plateau that is open now; null when none is. */
    openSince_s: z.number().nullable(),
    samples: SamplesSchema,
    judgement: JudgementSchema.nullable(),
    experiment: ExperimentViewSchema,
  }),
  /**
   * What came after the samples sent before, at display rate and thinned for display: above 400
   * samples a second only those that show (lowest and highest of each reading, 50 times a second);
   * coarser for a viewer that catches up.
   */
  z.object({ type: z.literal('samples'), samples: SamplesSchema }),
  z.object({ type: z.literal('judgement'), judgement: JudgementSchema }),
  z.object({ type: z.literal('status'), status: StatusSchema }),
  /** Settled: a plateau opened. */
  z.object({ type: z.literal('declared'), start_s: z.number(), declared_s: z.number() }),
  z.object({ type: z.literal('closed'), plateau: PlateauViewSchema }),
  /** Committed: never sent before the store has it. */
  z.object({ type: z.literal('trial'), trial: TrialViewSchema }),
  /** The plan, where in it we are, and what is to be done now: whenever any of it changes. */
  z.object({ type: z.literal('experiment'), experiment: ExperimentViewSchema }),
]);
export type LiveMessage = z.infer<typeof LiveMessageSchema>;

/** Page to server over the socket: only this. What changes something goes over HTTP. */
export const PageMessageSchema = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('snapshot-please') }),
]);
export type PageMessage = z.infer<typeof PageMessageSchema>;

/**
 * `POST /api/actions`: an operator's action on one trial. The server turns the trial's number into
 * recording time. A field that is not known is refused, so that a misspelt one can't go unnoticed.
 */
export const ActionRequestSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('strike'), trialId: z.number().int().positive(), reason: z.string().max(200) }),
  z.strictObject({ kind: z.literal('restore'), trialId: z.number().int().positive() }),
  z.strictObject({ kind: z.literal('note'), trialId: z.number().int().positive(), text: z.string().max(500) }),
  /** Give it to another run of the plan, or (null) to none. */
  z.strictObject({
    kind: z.literal('move'),
    trialId: z.number().int().positive(),
    runId: z.string().min(1).max(200).nullable(),
  }),
]);
export type ActionRequest = z.infer<typeof ActionRequestSchema>;

/**
 * `POST /api/link`: use this board (from `offers` or `GET /api/boards`), no board but meters that
 * are read by people, or the simulated rig.
 */
export const LinkRequestSchema = z.discriminatedUnion('use', [
  z.strictObject({ use: z.literal('board'), id: z.string() }),
  z.strictObject({ use: z.literal('meters') }),
  z.strictObject({ use: z.literal('simulated') }),
  /** A session that is kept, played as a demonstration: of the board nothing is read meanwhile. */
  z.strictObject({
    use: z.literal('session'),
    id: z.string().max(60),
    /** null: as fast as it will go. */
    speed: z.number().min(0.1).max(1000).nullable(),
  }),
  /** End that, and go on with what was there before it. */
  z.strictObject({ use: z.literal('what-was') }),
]);
export type LinkRequest = z.infer<typeof LinkRequestSchema>;

export const SessionViewSchema = z.object({
  id: z.string(),
  name: z.string(),
  /** RFC 3339. */
  startedAt: z.string(),
  origin: z.enum(['board', 'simulated', 'imported']),
});
/** Answer to `GET /api/sessions`: what is kept in the data folder, newest first. */
export const SessionsResponseSchema = z.object({
  sessions: z.array(
    SessionViewSchema.extend({
      /** Of its plan; null where it has none. */
      question: z.string().nullable(),
    }),
  ),
});
export type SessionsResponse = z.infer<typeof SessionsResponseSchema>;

/** Answer to `GET /api/sessions/ID/plan`; null for a session that has none. */
export const SessionPlanResponseSchema = z.object({ plan: PlanSchema.nullable() });
export type SessionPlanResponse = z.infer<typeof SessionPlanResponseSchema>;

/** `POST /api/sessions`: begin a lesson, or go on with an earlier one. The board stays in use. */
export const SessionRequestSchema = z.discriminatedUnion('want', [
  z.strictObject({ want: z.literal('new'), name: z.string().trim().min(1).max(60) }),
  z.strictObject({ want: z.literal('earlier'), id: z.string().max(60) }),
]);
export type SessionRequest = z.infer<typeof SessionRequestSchema>;

/**
 * Answer to `POST /api/sessions/file`, a session's file taken in. new: it was not here; grown: more
 * of it is here now; known: all of it was here already; apart: it had gone on here and elsewhere,
 * so it stands beside the one that was here.
 */
export const TakenInResponseSchema = z.object({
  outcome: z.enum(['new', 'grown', 'known', 'apart']),
  session: SessionViewSchema,
});
export type TakenInResponse = z.infer<typeof TakenInResponseSchema>;

/** `POST /api/board`: what the operator wants of the board. */
export const BoardRequestSchema = z.discriminatedUnion('want', [
  /** Take what the channel reads now as zero; refused while the rig seems to run, unless `sure`. */
  z.strictObject({ want: z.literal('zero'), channel: ChannelNumberSchema, sure: z.boolean() }),
  z.strictObject({ want: z.literal('rate'), sampleRate_Hz: SampleRateSchema }),
  /** What it measures with: of a channel left out, what was said stays; null takes it back. */
  z.strictObject({
    want: z.literal('instrument'),
    voltage: VoltageMeansSchema.nullable().optional(),
    current: CurrentMeansSchema.nullable().optional(),
  }),
  /** From here on readings are put along this line too, as trials before were corrected. */
  z.strictObject({ want: z.literal('correction'), quantity: z.enum(CORRECTABLE), line: LineSchema }),
  /** Which number of a plain line is what, where no header says it; none: forget what was said. */
  z.strictObject({ want: z.literal('columns'), columns: z.array(z.enum(COLUMN_NAMES)).max(32) }),
]);
export type BoardRequest = z.infer<typeof BoardRequestSchema>;

/** Every refusal over HTTP. `code` is documented in docs/errors.md. */
export const ErrorResponseSchema = z.object({
  error: z.object({ code: z.string(), message: z.string(), about: AboutSchema }),
});
export type ErrorResponse = z.infer<typeof ErrorResponseSchema>;
