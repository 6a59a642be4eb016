/** What is known of the board, and what can be asked of it: unfolds below the band. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { AnnouncedBoard } from '#core/live-messages.ts';
import {
  numberWords,
  partOfIdentity,
  rateLimits,
  readsNow,
  unannouncedWords,
  withUncertainty,
  withUnit,
  type AnnouncedChannel,
} from '../model/board.ts';
import { quantityIn } from '../words/board-words.ts';
import { sentenceOf, zeroSentence, type Told } from '../model/told.ts';
import { Program } from './program.tsx';
import { nameNumbers } from './naming.tsx';
import type { PageState } from './page-state.ts';
import { Unfolded } from './unfolded.tsx';

export function BoardPanel({ page }: { page: PageState }) {
  const status = page.bench.status.value;
  if (!page.boardShown.value || status === null) return null;
  const { board } = status;
  const words = page.words.value;
  return (
    <Unfolded class="board" id="board" label={words.top.header.theBoard}>
      {board === null ? (
        <div>
          <p>{unannouncedWords(status, words)}</p>
          <NamedNumbers page={page} names={status.namedColumns} />
        </div>
      ) : (
        <>
          <BoardFacts page={page} board={board} wanted_Hz={status.wantedSampleRate_Hz} />
          <div>
            <ChannelTable page={page} board={board} />
            <ZeroState page={page} board={board} />
          </div>
        </>
      )}
    </Unfolded>
  );
}

/** What the operator has said of a plain board's numbers, in the order in which they come. */
function NamedNumbers({ page, names }: { page: PageState; names: readonly string[] }) {
  const say = page.words.value.board;
  if (names.length === 0) return null;
  return (
    <p>
      {say.namedHere(names.map((name) => name || say.notUsed).join(', '))}{' '}
      <button type="button" class="underlined" onClick={() => nameNumbers(page, [])}>
        {say.nameAnew}
      </button>
    </p>
  );
}

interface FactsProps {
  readonly page: PageState;
  readonly board: AnnouncedBoard;
  readonly wanted_Hz: number;
}

function BoardFacts({ page, board: { identity, pace }, wanted_Hz }: FactsProps) {
  const words = page.words.value;
  const say = words.board;
  return (
    <dl class="board-facts">
      <dt>{say.facts.board}</dt>
      <dd>
        {say.madeBy(partOfIdentity(identity?.model, say), partOfIdentity(identity?.maker, say))}
      </dd>
      <dt>{say.facts.serial}</dt>
      <dd>{partOfIdentity(identity?.serial, say)}</dd>
      <dt>{say.facts.firmware}</dt>
      <dd>{partOfIdentity(identity?.firmware, say)}</dd>
      <dt>{say.facts.rate}</dt>
      <dd class="rate">
        {pace === null ? say.notKnown : numberWords(1e6 / pace.period_us, words)}
        <RateForm page={page} pace={pace} wanted_Hz={wanted_Hz} />
      </dd>
    </dl>
  );
}

interface RateProps {
  readonly page: PageState;
  readonly pace: AnnouncedBoard['pace'];
  readonly wanted_Hz: number;
}

function RateForm({ page, pace, wanted_Hz }: RateProps) {
  const field = useRef<HTMLInputElement>(null);
  const limits = rateLimits(pace);
  const words = page.words.value;
  const say = words.board;
  if (limits === null) return <span class="soft"> {say.asBuilt}</span>;
  const submit = (event: Event): void => {
    event.preventDefault();
    const sampleRate_Hz = field.current?.valueAsNumber ?? NaN;
    if (Number.isNaN(sampleRate_Hz)) return;
    void page.wantOfBoard({ want: 'rate', sampleRate_Hz }).then((refusal) => {
      if (refusal !== null) page.bench.trouble.value = refusal;
    });
  };
  return (
    <form onSubmit={submit}>
      <input
        ref={field}
        type="number"
        min="1"
        max="10000"
        step="any"
        required
        aria-label={say.wantedRate}
        key={wanted_Hz}
        defaultValue={String(wanted_Hz)}
      />
      <button type="submit" class="strong">
        {say.set}
      </button>{' '}
      <span class="soft">
        {say.limits(numberWords(limits.low, words), numberWords(limits.high, words))}
      </span>
    </form>
  );
}

const CELLS = ['count', 'zero', 'gain', 'offset'] as const;
const HEADS = ['channel', ...CELLS] as const;

function ChannelTable({ page, board }: { page: PageState; board: AnnouncedBoard }) {
  const say = page.words.value.board;
  if (board.channels.length === 0) return <p>{say.noChannels}</p>;
  return (
    <table class="channels">
      <thead class="soft">
        <tr>
          {HEADS.map((head) => (
            <th key={head} scope="col">
              {say.heads[head]}
            </th>
          ))}
          <th>
            <span class="sr">{say.actions}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {board.channels.map((channel) => (
          <ChannelRow key={channel.number} page={page} channel={channel} />
        ))}
      </tbody>
    </table>
  );
}

function ChannelRow({ page, channel }: { page: PageState; channel: AnnouncedChannel }) {
  const { number, unit, scale, zero, gain, offset, isRead } = channel;
  const { gainUncertainty, offsetUncertainty } = channel;
  const words = page.words.value;
  const say = words.board;
  const quantity = quantityIn(say.quantity, channel.quantity);
  const inNumber = (value: number): string => numberWords(value, words);
  const inUnit = (value: number): string => withUnit(value, unit, words);
  const cells = {
    count: inUnit(scale),
    zero: inNumber(zero),
    gain: withUncertainty(gain, gainUncertainty, inNumber, say),
    offset: withUncertainty(offset, offsetUncertainty, inUnit, say),
  };
  return (
    <tr data-channel={number}>
      <th scope="row">
        {number}&ensp;{quantity}
        {!isRead && <span class="soft">, {say.notRead}</span>}
      </th>
      {CELLS.map((cell) => (
        <td key={cell} data-head={say.heads[cell]}>
          {cells[cell]}
        </td>
      ))}
      <td>
        {channel.canZero && (
          <button
            type="button"
            class="underlined"
            aria-label={say.zero.takeOf(quantity)}
            onClick={() => (page.zeroPrompt.value = { channel: number, doubt: null })}
          >
            {say.zero.take}
          </button>
        )}
      </td>
    </tr>
  );
}

/** The question before a zero, or what came of the newest one. */
function ZeroState({ page, board }: { page: PageState; board: AnnouncedBoard }) {
  const { channels, zeroing } = board;
  const say = page.words.value.board.zero;
  const prompt = page.zeroPrompt.value;
  const channel = channels.find(({ number }) => number === prompt?.channel);
  if (prompt !== null && channel !== undefined) {
    return <ZeroQuestion page={page} channel={channel} doubt={prompt.doubt} />;
  }
  return (
    <p class="zero-state" role="status">
      {zeroing?.isPending === true && say.isPending}
      {zeroing?.isPending === false && (
        <>
          <Program sentence={zeroSentence(board, page.words.value)} />
          <span class="soft"> {say.byMistake}</span>
        </>
      )}
    </p>
  );
}

interface QuestionProps {
  readonly page: PageState;
  readonly channel: AnnouncedChannel;
  readonly doubt: Told | null;
}

function ZeroQuestion({ page, channel, doubt }: QuestionProps) {
  const cancel = useRef<HTMLButtonElement>(null);
  const words = page.words.value;
  const say = words.board.zero;
  // Not the button that takes it: a key pressed once too often must not do that.
  useLayoutEffect(() => cancel.current?.focus(), [doubt]);
  const close = (): void => {
    page.zeroPrompt.value = null;
  };
  const take = async (): Promise<void> => {
    const { number } = channel;
    const request = { want: 'zero', channel: number, sure: doubt !== null } as const;
    const refusal = await page.wantOfBoard(request);
    if (refusal?.code === 'zero-doubtful') {
      page.zeroPrompt.value = { channel: number, doubt: refusal };
      return;
    }
    close();
    if (refusal !== null) page.bench.trouble.value = refusal;
  };
  return (
    <div class={doubt === null ? 'zero-question' : 'zero-question hatched'} role="group">
      <p>
        {doubt !== null ? (
          <Program sentence={sentenceOf(doubt, 'refusal', words)} />
        ) : (
          <>
            <b>{say.atRest}</b>{' '}
            {readsNow(channel, page.bench.judgement.value, page.prefixes.value, words)}{' '}
            {say.becomesZero}
          </>
        )}
      </p>
      <button type="button" class="strong" onClick={() => void take()}>
        {doubt === null ? say.takeIt : say.takeItStill}
      </button>
      <button type="button" ref={cancel} onClick={close}>
        {say.cancel}
      </button>
    </div>
  );
}
