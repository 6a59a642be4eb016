/** What is known of the board, and what can be asked of it: unfolds below the top line. */
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
import { nameNumbers } from './naming.tsx';
import type { PageState } from './page-state.ts';

export function BoardPanel({ page }: { page: PageState }) {
  const status = page.bench.status.value;
  if (!page.boardShown.value || status === null) return null;
  const { board } = status;
  return (
    <section class="board" id="board" aria-label="The board">
      {board === null ? (
        <div>
          <p>{unannouncedWords(status)}</p>
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
    </section>
  );
}

/** What the operator has said of a plain board's numbers, in the order in which they come. */
function NamedNumbers({ page, names }: { page: PageState; names: readonly string[] }) {
  if (names.length === 0) return null;
  return (
    <p>
      Its numbers were named here: {names.map((name) => name || 'not used').join(', ')}.{' '}
      <button type="button" class="underlined" onClick={() => nameNumbers(page, [])}>
        Name them anew
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
  return (
    <dl class="board-facts">
      <dt>Board</dt>
      <dd>
        {partOfIdentity(identity?.model)}, by {partOfIdentity(identity?.maker)}
      </dd>
      <dt>Serial number</dt>
      <dd>{partOfIdentity(identity?.serial)}</dd>
      <dt>Firmware</dt>
      <dd>{partOfIdentity(identity?.firmware)}</dd>
      <dt>Samples a second</dt>
      <dd class="rate">
        {pace === null ? 'not known' : numberWords(1e6 / pace.period_us)}
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
  if (limits === null) return <span class="soft"> as the board is built</span>;
  const submit = (event: Event): void => {
    event.preventDefault();
    const sampleRate_Hz = field.current?.valueAsNumber ?? NaN;
    if (Number.isNaN(sampleRate_Hz)) return;
    void page.wantOfBoard({ want: 'rate', sampleRate_Hz }).then((refusal) => {
      if (refusal !== null) page.bench.trouble.value = refusal.message;
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
        aria-label="Wanted samples a second"
        key={wanted_Hz}
        defaultValue={String(wanted_Hz)}
      />
      <button type="submit" class="strong">
        Set
      </button>{' '}
      <span class="soft">
        {numberWords(limits.low)} to {numberWords(limits.high)}
      </span>
    </form>
  );
}

const HEADS = [
  'Channel',
  'One count',
  'Zero, counts',
  'Gain, uncertainty u',
  'Offset, uncertainty u',
] as const;

function ChannelTable({ page, board }: { page: PageState; board: AnnouncedBoard }) {
  if (board.channels.length === 0) return <p>It has not announced its channels yet.</p>;
  return (
    <table class="channels">
      <thead class="soft">
        <tr>
          {HEADS.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
          <th>
            <span class="sr">Actions</span>
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
  const { number, quantity, unit, scale, zero, gain, offset, isRead } = channel;
  const { gainUncertainty, offsetUncertainty } = channel;
  const cells = [
    withUnit(scale, unit),
    numberWords(zero),
    withUncertainty(gain, gainUncertainty, numberWords),
    withUncertainty(offset, offsetUncertainty, (value) => withUnit(value, unit)),
  ];
  return (
    <tr data-channel={number}>
      <th scope="row">
        {number}&ensp;{quantity}
        {!isRead && <span class="soft">, not read</span>}
      </th>
      {cells.map((cell, i) => (
        <td key={HEADS[i + 1]} data-head={HEADS[i + 1]}>
          {cell}
        </td>
      ))}
      <td>
        {channel.canZero && (
          <button
            type="button"
            class="underlined"
            aria-label={`Take a zero of ${quantity}`}
            onClick={() => (page.zeroPrompt.value = { channel: number, doubt: null })}
          >
            Take zero
          </button>
        )}
      </td>
    </tr>
  );
}

/** The question before a zero, or what came of the newest one. */
function ZeroState({ page, board }: { page: PageState; board: AnnouncedBoard }) {
  const { channels, zeroing } = board;
  const prompt = page.zeroPrompt.value;
  const channel = channels.find(({ number }) => number === prompt?.channel);
  if (prompt !== null && channel !== undefined) {
    return <ZeroQuestion page={page} channel={channel} doubt={prompt.doubt} />;
  }
  return (
    <p class="zero-state" role="status">
      {zeroing?.isPending === true && 'The board is taking a zero. Leave the fan off.'}
      {zeroing?.isPending === false && (
        <>
          {zeroing.message}
          <span class="soft"> Taken by mistake? Take it again with the fan off.</span>
        </>
      )}
    </p>
  );
}

interface QuestionProps {
  readonly page: PageState;
  readonly channel: AnnouncedChannel;
  readonly doubt: string | null;
}

function ZeroQuestion({ page, channel, doubt }: QuestionProps) {
  const cancel = useRef<HTMLButtonElement>(null);
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
      page.zeroPrompt.value = { channel: number, doubt: refusal.message };
      return;
    }
    close();
    if (refusal !== null) page.bench.trouble.value = refusal.message;
  };
  return (
    <div class={doubt === null ? 'zero-question' : 'zero-question hatched'} role="group">
      <p>
        {doubt ?? (
          <>
            <b>Fan off, blades at rest?</b>{' '}
            {readsNow(channel, page.bench.judgement.value, page.prefixes.value)} That becomes zero;
            what goes on is broken off.
          </>
        )}
      </p>
      <button type="button" class="strong" onClick={() => void take()}>
        {doubt === null ? 'Take it as zero' : 'They rest: take it as zero'}
      </button>
      <button type="button" ref={cancel} onClick={close}>
        Cancel
      </button>
    </div>
  );
}
