/** What the bench is doing, as one word: everything the page says and draws follows from it. */
import type { z } from 'zod';
import type { JudgementSchema, PlateauView, Status, TrialView } from '#core/live-messages.ts';

export type Judgement = z.infer<typeof JudgementSchema>;

/** connecting: never heard from the program; no-news: heard from it, but not for 3 s. */
export type News = 'connecting' | 'live' | 'no-news';

/** Stages in which the readings can't be told: the link comes first. */
export type LinkStage =
  | News
  | 'no-board'
  | 'meters'
  | 'starting'
  | 'unplugged'
  | 'silent'
  | 'refused'
  | 'unreadable'
  | 'unmapped'
  | 'ended';

/** Stages in which power is drawn as threads. */
const THREAD_STAGES = [
  'spinning-up',
  'running-down',
  'moving',
  'settling',
  'hold',
  'still',
  'logged',
  'disturbed',
  'unsettled',
] as const;
type ThreadStage = (typeof THREAD_STAGES)[number];

export type Stage = Exclude<LinkStage, 'live'> | 'waiting' | ThreadStage;

export function hasThreads(stage: Stage): boolean {
  return THREAD_STAGES.some((one) => one === stage);
}

export interface Facts {
  readonly news: News;
  readonly status: Status | null;
  readonly judgement: Judgement | null;
  /** The trial that the open plateau has been logged as; null before it is on disk. */
  readonly loggedTrial: TrialView | null;
  /** The plateau of this recording that closed last. */
  readonly lastClosed: PlateauView | null;
  /** Least power seen since it closed; null when the page has not watched since. */
  readonly leastSinceClosed_W: number | null;
  /** The session's largest power, as far as known. */
  readonly mostPower_W: number;
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
    case 'meters':
      return 'meters';
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

function stageOfReadings(facts: Facts): Stage {
  const { judgement, loggedTrial } = facts;
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
      return stageOfMotion(judgement, facts);
  }
}

function stageOfMotion(judgement: Judgement, facts: Facts): Stage {
  const direction = directionOf(judgement, facts.mostPower_W);
  if (direction === 'up') return 'spinning-up';
  if (direction === 'down' && !windBlowsOn(judgement)) return 'running-down';
  if (direction === 'none') return 'waiting';
  if (isJustOver(judgement, facts)) return 'running-down';
  if (wasDisturbed(judgement, facts)) return 'disturbed';
  const { threads, phase } = judgement;
  const joined = threads.filter((thread) => thread.joined).length;
  if (joined === threads.length && phase === 'settling') return 'hold';
  // Half of the threads lie together: calling that "moving" would only make the words flicker.
  return phase === 'settling' || joined > threads.length / 2 ? 'settling' : 'moving';
}

/** Power counts as changing at large beyond this factor within the window. */
const AT_LARGE = 1.35;
/** Of the session's largest power: below, the rotor as good as stands. */
const STANDING = 0.02;

/** A slipping blade takes power away, too; then the wind has not fallen. */
function windBlowsOn(judgement: Judgement): boolean {
  const wind = judgement.channels.find(({ channel }) => channel === 'windSpeed_mps');
  return hasWind(judgement) && wind?.motion !== 'falling';
}

/** Which way power goes at large within the window; where there is none, which way wind goes. */
function directionOf(judgement: Judgement, mostPower_W: number): 'up' | 'down' | 'level' | 'none' {
  const { threads, channels } = judgement;
  const now_W = powerLevel_W(judgement);
  const before_W = meanPower_W(threads.slice(0, quarterOf(threads)));
  if (Math.max(now_W, before_W) > STANDING * mostPower_W) {
    if (now_W > AT_LARGE * before_W) return 'up';
    return now_W < before_W / AT_LARGE ? 'down' : headingOf(judgement);
  }
  const wind = channels.find(({ channel }) => channel === 'windSpeed_mps');
  if (wind?.motion === 'rising') return 'up';
  return wind?.motion === 'falling' ? 'down' : 'none';
}

/** A channel that would lose or gain this share of its level within 2 s is under way. */
const UNDER_WAY = 0.3;

/** Where voltage and current are heading, for a window that is too short to show it. */
function headingOf({ channels }: Judgement): 'up' | 'down' | 'level' {
  for (const { channel, motion, level, slope_per_s } of channels) {
    if (channel !== 'voltage_V' && channel !== 'current_A') continue;
    if (motion !== 'rising' && motion !== 'falling') continue;
    if (Math.abs(2 * slope_per_s) > UNDER_WAY * Math.abs(level))
      return motion === 'rising' ? 'up' : 'down';
  }
  return 'level';
}

/** A plateau that became a trial ends because the fan was stopped, until the contrary shows. */
const OVER_FOR_S = 6;

function isJustOver({ time_s }: Judgement, { lastClosed }: Facts): boolean {
  return (
    lastClosed !== null && lastClosed.trialId !== null && time_s - lastClosed.end_s < OVER_FOR_S
  );
}

/**
 * Whether a steady stretch was broken before it was logged, though the wind has blown on: then
 * power has stayed above half of what it was.
 */
function wasDisturbed(judgement: Judgement, { lastClosed, leastSinceClosed_W }: Facts): boolean {
  if (lastClosed?.endReason !== 'changed' || lastClosed.trialId !== null) return false;
  if (lastClosed.power_W === null || leastSinceClosed_W === null) return false;
  if (judgement.time_s - lastClosed.end_s > DISTURBED_FOR_S) return false;
  return leastSinceClosed_W >= lastClosed.power_W.value / 2;
}

/** Power now: the mean of the newest quarter of the window's slices; NaN when there is none. */
export function powerLevel_W({ threads }: Judgement): number {
  return meanPower_W(threads.slice(-quarterOf(threads)));
}

export function newestQuarter_W(threads: Judgement['threads']): readonly number[] {
  return threads.slice(-quarterOf(threads)).map(({ power_W }) => power_W);
}

function quarterOf(threads: Judgement['threads']): number {
  return Math.max(Math.ceil(threads.length / 4), 1);
}

/** Mean power of slices; NaN when there is none. */
export function meanPower_W(threads: Judgement['threads']): number {
  return threads.reduce((sum, { power_W }) => sum + power_W, 0) / threads.length;
}

/**
 * The window's slices as they are shown. While power changes at large, and when it will not
 * settle, none counts as joined: there is no cord to promise.
 */
export function shownThreads(stage: Stage, { threads }: Judgement): Judgement['threads'] {
  if (stage !== 'spinning-up' && stage !== 'running-down' && stage !== 'unsettled') return threads;
  return threads.map(({ power_W }) => ({ power_W, joined: false }));
}

/** Whether readings are coming; if not, none may look alive. */
export function hasReadings(stage: Stage): boolean {
  return stage === 'waiting' || hasThreads(stage);
}

/** Below this there is no wind to speak of, m/s. */
const CALM_MPS = 0.3;

/** What is heard of the air. */
export interface AirHeard {
  readonly isWindy: boolean;
  /** What was logged last did not turn, and nothing turns now: what moves is the air alone. */
  readonly movesAlone: boolean;
}

/** @param newest the newest trial that is not struck */
export function airHeard(
  judgement: Judgement | null,
  newest: Pick<TrialView, 'rotorStill'> | null,
): AirHeard {
  const movesAlone = newest?.rotorStill === true && judgement?.rotorStill === true;
  return { isWindy: hasWind(judgement), movesAlone };
}

/** Whether an anemometer reads wind; false where there is none. */
export function hasWind(judgement: Judgement | null): boolean {
  const wind = judgement?.channels.find(({ channel }) => channel === 'windSpeed_mps');
  return wind !== undefined && wind.level > CALM_MPS;
}

/** Whether readings that were coming are cut off: the cord frays and the band's edge is hatched. */
export function isCutOff(stage: Stage): boolean {
  return stage === 'no-news' || stage === 'unplugged' || stage === 'silent' || stage === 'refused';
}
