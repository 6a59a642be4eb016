/** What the bench is doing, as one word: everything the page says and draws follows from it. */
import type { z } from 'zod';
import type { JudgementSchema, PlateauView, Status, TrialView } from '#core/live-messages.ts';

export type Judgement = z.infer<typeof JudgementSchema>;

/** connecting: never heard from the program; no-news: heard from it, but not for 3 s. */
export type News = 'connecting' | 'live' | 'no-news';

export type Stage =
  | 'connecting'
  | 'no-news'
  | 'no-board'
  | 'starting'
  | 'unplugged'
  | 'silent'
  | 'refused'
  | 'unreadable'
  | 'unmapped'
  | 'ended'
  | 'waiting'
  | 'spinning-up'
  | 'running-down'
  | 'moving'
  | 'settling'
  | 'hold'
  | 'still'
  | 'logged'
  | 'disturbed'
  | 'unsettled';

export interface Facts {
  readonly news: News;
  readonly status: Status | null;
  readonly judgement: Judgement | null;
  /** The trial that the open plateau has been logged as; null before it is on disk. */
  readonly loggedTrial: TrialView | null;
  /** The plateau of this recording that closed last. */
  readonly lastClosed: PlateauView | null;
}

/** A change this long ago is no news any more. */
const DISTURBED_FOR_S = 20;

export function stageOf(facts: Facts): Stage {
  if (facts.news !== 'live') return facts.news;
  if (facts.status === null) return 'connecting';
  return stageOfLink(facts.status) ?? stageOfReadings(facts);
}

/** The stage when the link is in the way of readings, else null. */
function stageOfLink({ port, health }: Status): Stage | null {
  switch (port.phase) {
    case 'searching':
      return 'no-board';
    case 'opening':
      return 'starting';
    case 'unplugged':
    case 'refused':
    case 'ended':
      return port.phase;
    case 'open':
    case 'simulated':
    case 'replaying':
      return stageOfHealth(health);
  }
}

function stageOfHealth(health: Status['health']): Stage | null {
  switch (health) {
    case 'reading':
      return null;
    case 'closed':
    case 'starting':
      return 'starting';
    case 'unreadable':
    case 'unmapped':
    case 'silent':
      return health;
  }
}

function stageOfReadings({ judgement, loggedTrial, lastClosed }: Facts): Stage {
  if (judgement === null) return 'waiting';
  switch (judgement.phase) {
    case 'idle':
      return 'waiting';
    case 'settled':
      return loggedTrial === null ? 'still' : 'logged';
    case 'unsettled':
      return 'unsettled';
    case 'moving':
    case 'settling':
      if (isRunningDown(judgement)) return 'running-down';
      if (wasDisturbed(judgement, lastClosed)) return 'disturbed';
      return judgement.phase === 'moving' ? stageOfMoving(judgement) : stageOfSettling(judgement);
  }
}

function stageOfMoving({ channels }: Judgement): Stage {
  return channels.some(({ motion }) => motion === 'rising') ? 'spinning-up' : 'moving';
}

function stageOfSettling({ threads }: Judgement): Stage {
  return threads.length > 0 && threads.every(({ joined }) => joined) ? 'hold' : 'settling';
}

/** Whether voltage or current falls so fast that it looks like the wind has been stopped. */
export function isRunningDown({ channels }: Judgement): boolean {
  return channels.some(
    ({ channel, motion, level, slope_per_s }) =>
      (channel === 'voltage_V' || channel === 'current_A') &&
      motion === 'falling' &&
      -2 * slope_per_s > 0.3 * Math.abs(level),
  );
}

/** Whether a steady stretch was broken just now though the wind still blows. */
function wasDisturbed(judgement: Judgement, closed: PlateauView | null): boolean {
  if (closed === null || closed.endReason !== 'changed' || closed.power_W === null) return false;
  if (judgement.time_s - closed.end_s > DISTURBED_FOR_S) return false;
  return powerLevel_W(judgement) >= closed.power_W.value / 2;
}

/** Power now: the mean of the newest quarter of the window's slices; NaN when there is none. */
export function powerLevel_W({ threads }: Judgement): number {
  const newest = newestQuarter_W(threads);
  return newest.reduce((sum, power_W) => sum + power_W, 0) / newest.length;
}

export function newestQuarter_W(threads: Judgement['threads']): readonly number[] {
  return threads.slice(-Math.max(Math.ceil(threads.length / 4), 1)).map(({ power_W }) => power_W);
}

/** Whether readings are cut off, so that the last ones must not look alive. */
export function isCutOff(stage: Stage): boolean {
  return stage === 'no-news' || stage === 'unplugged' || stage === 'silent' || stage === 'refused';
}
