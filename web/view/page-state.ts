/** What the views share: the bench, this device's settings, and what is chosen on the page. */
import { computed, effect, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import type { ExperimentView } from '#core/experiment/view.ts';
import type {
  BoardRequest,
  SessionRequest,
  SessionsResponse,
  TrialView,
} from '#core/live-messages.ts';
import type { WindCurve } from '#core/experiment/budget/wind-curve.ts';
import type { AcrossBy } from '../draw/trial-marks.ts';
import type { Refusal } from '../feed/requests.ts';
import type { Bench } from '../model/bench.ts';
import type { Told } from '../model/told.ts';
import type { RoomNetwork } from '../network/room-network.ts';
import type { Operator } from './operator.ts';
import type { Sessions } from './sessions.ts';
import { createSpeaker, type Speaker } from '../voice/speaker.ts';
import { createWatchState, type WatchState } from './watch-state.ts';

/** Which trial's reason or note is being typed. */
export interface Editing {
  readonly trialId: number;
  readonly kind: 'strike' | 'note';
}

/** A zero that is about to be asked for: not before a second look. */
export interface ZeroPrompt {
  readonly channel: number;
  /** Why the program would rather not; null before it was asked. */
  readonly doubt: Told | null;
}

/** What an operator needs, at the bench or on a phone. */
export interface Operating extends WatchState {
  /** The trial that is acted on; null: the newest. */
  readonly chosenId: Signal<number | null>;
  readonly editing: Signal<Editing | null>;
  readonly operator: Operator;
}

export interface PageState extends Operating {
  /** In which ways the answer plot can stand, the first being its own choice. */
  readonly acrossWays: ReadonlySignal<readonly AcrossBy[]>;
  /** What the answer plot stands by: as chosen, else by levels as soon as there is a plan. */
  readonly acrossBy: ReadonlySignal<AcrossBy>;
  readonly acrossChosen: Signal<AcrossBy | null>;
  /** The trial of which it is shown where its ± comes from. */
  readonly budgetOfId: Signal<number | null>;
  /** Whether what is known of the board is unfolded. */
  readonly boardShown: Signal<boolean>;
  readonly zeroPrompt: Signal<ZeroPrompt | null>;
  /** Notices that have been read. */
  readonly dismissed: Signal<ReadonlySet<string>>;
  readonly speaker: Speaker;
  readonly sessions: Sessions;
  readonly roomNetwork: RoomNetwork;
  useBoard(id: string): void;
  /** No board from here on: meters are read. */
  useMeters(): void;
  loadSessions(): Promise<SessionsResponse['sessions']>;
  /** Every state of a trial that was committed. */
  loadRevisions(trialId: number): Promise<readonly TrialView[]>;
  goOnIn(request: SessionRequest): void;
  /** Has a session's file written and kept where the browser keeps downloads. */
  save(sessionId: string): void;
  takeIn(file: File): void;
  /** Puts a kept session's plan into the plan's form, which it unfolds. */
  takePlan(sessionId: string): Promise<void>;
  /** Plays a session as a demonstration; null: ends the one that is played. */
  play(wanted: { readonly id: string; readonly speed: number | null } | null): void;
  /** Resolves with null once the program has taken it up. */
  wantOfBoard(request: BoardRequest): Promise<Refusal | null>;
}

export function createPageState(
  given: Pick<
    PageState,
    | 'bench'
    | 'operator'
    | 'roomNetwork'
    | 'useBoard'
    | 'useMeters'
    | 'wantOfBoard'
    | 'loadSessions'
    | 'loadRevisions'
    | 'goOnIn'
    | 'play'
    | 'sessions'
    | 'save'
    | 'takeIn'
    | 'takePlan'
  >,
): PageState {
  const { bench } = given;
  const acrossChosen = signal<AcrossBy | null>(null);
  const dismissed = signal<ReadonlySet<string>>(new Set());
  forgetDismissed(bench, dismissed);
  const watch = createWatchState(bench);
  const acrossWays = computed(() => waysOf(bench.experiment.value, watch.windCurve.value));
  return {
    ...given,
    ...watch,
    speaker: createSpeaker(watch, watch.settings.voiceOn),
    acrossWays,
    acrossBy: computed(() => {
      const ways = acrossWays.value;
      return ways.find((way) => way === acrossChosen.value) ?? ways[0] ?? 'number';
    }),
    acrossChosen,
    chosenId: signal<number | null>(null),
    editing: signal<Editing | null>(null),
    budgetOfId: signal<number | null>(null),
    boardShown: signal(false),
    zeroPrompt: signal<ZeroPrompt | null>(null),
    dismissed,
  };
}

/** Levels need a plan, the share of the wind winds that differ; a choice of them waits for that. */
function waysOf({ plan }: ExperimentView, curve: WindCurve | null): readonly AcrossBy[] {
  const needs: Readonly<Record<AcrossBy, boolean>> = {
    levels: plan !== null,
    number: true,
    wind: true,
    share: curve !== null,
  };
  return (['levels', 'number', 'wind', 'share'] as const).filter((way) => needs[way]);
}

/** What was read and is over may come back, and is news then. */
function forgetDismissed({ status }: Bench, dismissed: PageState['dismissed']): void {
  effect(() => {
    const messages = new Set(status.value?.notices.map(({ message }) => message));
    const still = [...dismissed.peek()].filter((message) => messages.has(message));
    if (still.length < dismissed.peek().size) dismissed.value = new Set(still);
  });
}

/** The trial that is acted on: the chosen one, else the newest. */
export function chosenTrial({ bench, chosenId }: Operating): TrialView | null {
  const trials = bench.trials.value;
  return trials.find(({ id }) => id === chosenId.value) ?? trials.at(-1) ?? null;
}
