/**
 * The running program: one run at a time (source → recorder → store), shown to every viewer.
 * This file only wires; what happens to a line is in core/pipeline, what is kept in store/.
 */
import type { Server } from 'node:http';
import type { ClosedPlateau } from '#core/events.ts';
import { createBook } from '#core/experiment/trial-book.ts';
import { experimentView } from '#core/experiment/conductor/view.ts';
import type { Command } from '#core/experiment/command.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';
import type { ExperimentView } from '#core/experiment/view.ts';
import type { Board, PortState } from '#core/link.ts';
import type { SessionRequest, Status, TrialView } from '#core/live-messages.ts';
import { listenAt, portOf, refuseHost } from './listen.ts';
import { createFeed, type Feed, type Picture } from './live/feed.ts';
import { checkSource, openSource } from './open-source.ts';
import { createOperator } from './operator.ts';
import { beginWithPlan } from './begin-with-plan.ts';
import { openBoardMemory, type BoardMemory } from './board-memory.ts';
import type { ShownEvent } from './recorder.ts';
import { buildHttp, networkServer } from './routes/http.ts';
import { createRoomNetwork, type RoomNetwork, type RoomNetworkParts } from './room-network.ts';
import { admitLive } from './routes/raw-refusals.ts';
import { openPlayer, type Player } from './player.ts';
import { HttpError } from './routes/errors.ts';
import { beginRun, type Run, type RunListener } from './run.ts';
import { worldTime, type PlayedTime } from './run-time.ts';
import {
  createScene,
  showCommitted,
  showEvent,
  statusOf,
  type Scene,
  type Surroundings,
} from './scene.ts';
import { originOf, resumeOrCreateSession, sessionOf } from './session.ts';
import { createSessionFiles } from './session-files.ts';
import { DEFAULT_SEED, type ChosenSource, type SourceChoice } from './source-choice.ts';
import { watchBoards } from './sources/boards.ts';
import { isUsb } from './sources/naming.ts';
import type { Demonstration } from './sources/played.ts';
import type { Ports } from './sources/ports.ts';
import { createSystemPorts } from './sources/system-ports.ts';
import { openStore } from './store/open.ts';
import type { SessionInfo, Store } from './store/store.ts';
import { webFolder } from './web-folder.ts';

/** In the memory of boards: the last one used was none. */
const METERS = 'meters';

export interface AppOptions {
  readonly dataFolder: string;
  readonly source: SourceChoice;
  readonly demonstration?: Demonstration & { readonly time: PlayedTime };
  /** How much faster than life replayed and simulated sources run. */
  readonly speed: number;
  readonly port: number;
  /** Where the bench's own door is: an address of loopback. */
  readonly host: string;
  /** Opened to the network from the start: one address, or all of them; null: none. */
  readonly open?: { readonly address: string | null } | null;
  /** This computer's addresses, where they are not to be asked of the system. */
  readonly addresses?: RoomNetworkParts['addresses'];
}

/** Pages on the bench's own computer that a crowd on the network can't keep out. */
const BENCH_SEATS = 20;

export interface App {
  /** Where the bench page is, for a person on this computer. */
  readonly url: string;
  /** @returns why it was left out, in a sentence; null when the session has this plan */
  beginWith(plan: Plan): Promise<string | null>;
  close(): Promise<void>;
}

/**
 * Starts everything; resolves when pages are served.
 * @throws coded errors: data folder or port in use, source not usable
 */
export async function startApp(options: AppOptions): Promise<App> {
  const ports = createSystemPorts();
  await checkSource(options.source, ports);
  const store = await openStore(options.dataFolder);
  const memory = await openBoardMemory(options.dataFolder);
  const app = new RunningApp(options, { store, ports, memory });
  try {
    return await app.start();
  } catch (error) {
    await app.close();
    throw error;
  }
}

/** A run that goes on, or a demonstration. */
type Recording = Pick<Run, 'recorder' | 'close'>;

interface Parts {
  readonly store: Store;
  readonly ports: Ports;
  readonly memory: BoardMemory;
}

class RunningApp implements App {
  readonly #options: AppOptions;
  readonly #store: Store;
  readonly #feed: Feed;
  readonly #http: ReturnType<typeof buildHttp>;
  readonly #operator: ReturnType<typeof createOperator>;
  readonly #ports: Ports;
  readonly #memory: BoardMemory;
  readonly #network: RoomNetwork;
  #surroundings: Omit<Surroundings, 'problems'> = {
    offers: [],
    store: { ok: true, message: null },
    networkChange: 0,
  };
  #run: Recording | null = null;
  #choice: ChosenSource | null = null;
  /** What was recorded last, to go back to after a demonstration. */
  #before: { choice: ChosenSource; session: SessionInfo } | null = null;
  #player: Player | null = null;
  #scene: Scene | null = null;
  #stopWatching: (() => void) | null = null;
  /** One change of source at a time. */
  #changing: Promise<void> = Promise.resolve();
  url = '';

  constructor(options: AppOptions, { store, ports, memory }: Parts) {
    this.#options = options;
    this.#store = store;
    this.#ports = ports;
    this.#memory = memory;
    this.#feed = createFeed({ picture: () => this.#picture(), admit: admitLive });
    this.#network = createRoomNetwork({
      newServer: () => this.#newDoor(),
      port: () => portOf(this.#http.server),
      ...(options.addresses && { addresses: options.addresses }),
      changed: () => this.#onNetwork(),
    });
    this.#operator = createOperator({
      scene: () => this.#now().scene,
      recorder: () => this.#now().run.recorder,
      status: () => this.#status(),
      experiment: () => this.#experiment(),
      attached: () => this.#ports.list().catch(() => []),
      use: (choice) => this.#change(choice),
      useWhatWas: () => this.#useWhatWas(),
      dataFolder: options.dataFolder,
      sessions: () => store.sessions(),
      revisions: (id) => store.revisions(id),
      planOf: async (id) => (await store.ledger(id).catch(() => null))?.plan ?? null,
      goOnIn: (request) => this.#goOnIn(request),
      files: createSessionFiles(store, options.dataFolder),
      settingsOf: (id) => memory.settingsOf(id),
      keepSettings: (id, settings) => memory.keepSettings(id, settings),
    });
    this.#http = buildHttp(
      { ...this.#operator, network: this.#network },
      { webFolder: webFolder(), report: (error) => console.error(error) },
    );
    this.#feed.attach(this.#http.server, BENCH_SEATS);
    store.onState((state) => {
      this.#surroundings = { ...this.#surroundings, store: state };
      this.#showStatus();
    });
  }

  async start(): Promise<this> {
    await this.#change(await this.#firstChoice());
    this.url = await listenAt(this.#http, this.#options);
    const { open } = this.#options;
    if (open) await this.#network.openAtStart(open.address).catch(refuseHost);
    return this;
  }

  beginWith(plan: Plan): Promise<string | null> {
    const { scene, run } = this.#now();
    const { plan: planned } = run.recorder.state().conductor.ledger;
    const say = (command: Command) => this.#operator.command(command);
    return beginWithPlan(plan, { planned, sessionName: scene.session.name, say });
  }

  async close(): Promise<void> {
    await this.#changing.catch(() => undefined);
    this.#stopWatching?.();
    await this.#run?.close('ended');
    this.#player?.close();
    await this.#feed.close();
    await this.#network.close();
    await this.#http.close();
    await this.#store.close();
  }

  /** What a session can be recorded from, while one is played. */
  async #liveChoice(): Promise<ChosenSource> {
    return this.#before?.choice ?? this.#automaticChoice();
  }

  /** What `--source` says; without it the attached board, else what was used last without one. */
  async #firstChoice(): Promise<ChosenSource> {
    const { source } = this.#options;
    return source.kind === 'automatic' ? this.#automaticChoice() : source;
  }

  async #automaticChoice(): Promise<ChosenSource> {
    const attached = (await this.#ports.list().catch(() => [])).filter(isUsb);
    const known = attached.find(({ id }) => id === this.#memory.lastUsed());
    const board = known ?? (attached.length === 1 ? attached[0] : undefined);
    if (board !== undefined) return { kind: 'board', id: board.id };
    const usedMeters = attached.length === 0 && this.#memory.lastUsed() === METERS;
    return usedMeters ? { kind: 'meters' } : { kind: 'simulated', seed: DEFAULT_SEED };
  }

  /** @param chosen the session to go on in; without it the one of this lesson, or a new one */
  #change(choice: ChosenSource, chosen?: SessionInfo): Promise<void> {
    const change = this.#changing
      .catch(() => undefined)
      .then(() => this.#replaceRun(choice, chosen));
    this.#changing = change;
    return change;
  }

  /** Ends a demonstration: what was there before it goes on. */
  async #useWhatWas(): Promise<void> {
    if (this.#choice?.kind !== 'session') return;
    const { choice, session } = this.#before ?? { choice: await this.#liveChoice() };
    await this.#change(choice, session);
  }

  async #replaceRun(choice: ChosenSource, chosen?: SessionInfo): Promise<void> {
    if (choice.kind === 'session') return this.#play(choice);
    await this.#endRun();
    const session = chosen ?? (await resumeOrCreateSession(this.#store, choice));
    this.#choice = choice;
    this.#before = { choice, session };
    const trials = await this.#store.trials(session.id);
    const plateaus = await this.#store.plateaus(session.id);
    const beginning = {
      origin: originOf(choice),
      book: createBook(trials),
      settingsOf: (id: string) => this.#memory.settingsOf(id),
    };
    const { speed, demonstration } = this.#options;
    const cutOff = () => void this.#change(choice, session).catch((error) => console.error(error));
    const listener = { ...this.#listener(), cutOff };
    const isPlayed = choice.kind === 'simulated' && demonstration !== undefined;
    const time = isPlayed ? demonstration.time : worldTime();
    const run = await beginRun(this.#store, session, beginning, listener, time);
    this.#scene = createScene(session, run.recorder.info.id, trials, plateaus);
    this.#run = run;
    this.#feed.restart();
    const { instruction } = run;
    const { untold } = run.recorder;
    const around = { ports: this.#ports, speed, instruction, untold, demonstration };
    run.open((clock, listener) => openSource(choice, { clock, listener, ...around }));
    if (choice.kind === 'board') await this.#memory.keepLastUsed(choice.id);
    if (choice.kind === 'meters') await this.#memory.keepLastUsed(METERS);
    const isSerial = choice.kind === 'board' || choice.kind === 'path';
    if (!isSerial) this.#watchForBoards();
  }

  async #endRun(): Promise<void> {
    this.#stopWatching?.();
    this.#stopWatching = null;
    await this.#run?.close('replaced');
    this.#player?.close();
    this.#player = null;
  }

  #listener(): Omit<RunListener, 'cutOff'> {
    return {
      event: (event) => this.#onEvent(event),
      committed: (views, closed) => this.#onCommitted(views, closed),
      experiment: () => this.#feed.say({ type: 'experiment', experiment: this.#experiment() }),
      port: (port) => this.#onPort(port),
      offers: (offers) => this.#onOffers(offers),
    };
  }

  async #play(choice: Extract<ChosenSource, { kind: 'session' }>): Promise<void> {
    const player = openPlayer(choice);
    if (player === null) throw new HttpError('session-unknown', 'Nothing was recorded in that session.', ['empty']);
    await this.#endRun();
    this.#choice = choice;
    this.#player = player;
    this.#playRecording(player);
    this.#watchForBoards();
  }

  #playRecording(player: Player): void {
    const listener = { ...this.#listener(), cutOff: () => undefined };
    const run = player.begin(listener, () => this.#playNext(player));
    const { session, trials, plateaus } = player;
    const shown = [...trials.values()];
    this.#scene = createScene(session, player.recordingNumber(), shown, plateaus, player.playing());
    this.#run = run;
    this.#feed.restart();
    run.open();
  }

  #playNext(player: Player): void {
    if (this.#player !== player) return;
    const last = this.#run;
    if (player.next()) this.#playRecording(player);
    else this.#onPort({ phase: 'ended' });
    if (last !== this.#run) void last?.close('replaced');
  }

  /** While no serial source runs, which would tell of boards itself. */
  #watchForBoards(): void {
    this.#stopWatching = watchBoards(this.#ports, (boards) => this.#onOffers(boards));
  }

  /** The source goes on, into another session of its kind. */
  async #goOnIn(request: SessionRequest): Promise<void> {
    // Who chooses a session while one is played has seen enough of that.
    const choice = this.#choice?.kind === 'session' ? await this.#liveChoice() : this.#choice;
    if (choice === null) throw new Error('asked before the first run');
    const session = await sessionOf(this.#store, request, originOf(choice));
    await this.#change(choice, session);
  }

  #onEvent(event: ShownEvent): void {
    const { scene } = this.#now();
    if (showEvent(scene, event)) this.#showStatus();
    if (event.kind === 'sample') this.#feed.sample(event.sample);
    if (event.kind === 'judged') this.#feed.judgement(event.judgement);
    if (event.kind === 'declared') {
      const { start_s, declared_s } = event;
      this.#feed.say({ type: 'declared', start_s, declared_s });
    }
  }

  #onCommitted(trials: readonly TrialView[], plateaus: readonly ClosedPlateau[]): void {
    const { scene } = this.#now();
    const closed = showCommitted(scene, trials, plateaus);
    for (const trial of trials) this.#feed.say({ type: 'trial', trial });
    for (const plateau of closed) this.#feed.say({ type: 'closed', plateau });
  }

  #onPort(port: PortState): void {
    this.#now().scene.port = port;
    this.#showStatus();
  }

  #onOffers(offers: readonly Board[]): void {
    this.#surroundings = { ...this.#surroundings, offers };
    this.#showStatus();
  }

  /** A door to the network: the same routes and the same feed. */
  #newDoor(): Server {
    const server = networkServer(this.#http);
    this.#feed.attach(server);
    return server;
  }

  #onNetwork(): void {
    const networkChange = this.#surroundings.networkChange + 1;
    this.#surroundings = { ...this.#surroundings, networkChange };
    this.#showStatus();
  }

  #showStatus(): void {
    if (this.#scene !== null) this.#feed.status(this.#status());
  }

  #status(): Status {
    const { scene, run } = this.#now();
    const problems = this.#store.problems();
    return statusOf(scene, run.recorder.state(), { ...this.#surroundings, problems });
  }

  #experiment(): ExperimentView {
    const { scene, run } = this.#now();
    const isUnheard = scene.port.phase === 'meters';
    return experimentView(run.recorder.state().conductor, [...scene.trials.values()], isUnheard);
  }

  #picture(): Picture {
    const { scene } = this.#now();
    const { trials, plateaus, recordingId, openSince_s } = scene;
    return {
      status: this.#status(),
      trials: [...trials.values()],
      plateaus: plateaus.filter((plateau) => plateau.recordingId === recordingId),
      openSince_s,
      experiment: this.#experiment(),
    };
  }

  #now(): { scene: Scene; run: Recording } {
    if (this.#scene === null || this.#run === null) throw new Error('asked before the first run');
    return { scene: this.#scene, run: this.#run };
  }
}
