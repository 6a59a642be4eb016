/** Top of the page: what the tool is doing, the link in words with its sign, and three buttons. */
import { UNIT_SPACE } from '#core/metrology/format.ts';
import type { Status } from '#core/live-messages.ts';
import { togglePlan } from '../plan/planning.ts';
import type { Stage } from '../model/stage.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { PageState } from './page-state.ts';
import { Key } from './run-line.tsx';

export function Header({ page }: { page: PageState }) {
  const { bench, settings, drawing } = page;
  const say = page.words.value.top.header;
  const status = bench.status.value;
  return (
    <header class="top">
      <div class="asked">
        <h1>{bench.experiment.value.plan?.question ?? questionOf(status, page.words.value)}</h1>
        <PlanFold page={page} />
      </div>
      <LinkState page={page} />
      <div class="buttons">
        <PageButton
          letter={say.spaceKey}
          isOn={drawing.paused.value}
          onClick={() => (drawing.paused.value = !drawing.paused.value)}
        >
          {drawing.paused.value ? say.frozen : say.freeze}
        </PageButton>
        <PageButton
          letter="M"
          isOn={settings.soundOn.value}
          onClick={() => (settings.soundOn.value = !settings.soundOn.value)}
        >
          {settings.soundOn.value ? say.soundOn : say.soundOff}
        </PageButton>
        <PageButton letter="D" onClick={() => toggleTheme(page)}>
          {settings.isDark.value ? say.toLight : say.toDark}
        </PageButton>
      </div>
    </header>
  );
}

function PlanFold({ page }: { page: PageState }) {
  return (
    <button
      type="button"
      class="fold"
      aria-expanded={page.operator.planning.isShown.value}
      aria-controls="plan"
      onClick={() => togglePlan(page)}
    >
      {page.words.value.bench.plan}
      {page.settings.lettersOn.value && <Key>Q</Key>}
    </button>
  );
}

export function toggleTheme({ settings }: PageState): void {
  settings.theme.value = settings.isDark.value ? 'light' : 'dark';
}

interface PageButtonProps {
  readonly letter: string;
  readonly isOn?: boolean;
  readonly children: preact.ComponentChildren;
  onClick(): void;
}

function PageButton({ letter, isOn, children, onClick }: PageButtonProps) {
  return (
    <button
      type="button"
      class="page-button"
      onClick={onClick}
      {...(isOn === undefined ? {} : { 'aria-pressed': isOn })}
    >
      <span>{children}</span>
      <kbd aria-hidden="true">{letter}</kbd>
    </button>
  );
}

function questionOf(status: Status | null, { top, bench }: Catalogue): string {
  if (status?.port.phase === 'meters') return bench.byHand.keyed.heading;
  return status?.port.phase === 'replaying' ? top.header.replayed : top.header.eachLogged;
}

function LinkState({ page }: { page: PageState }) {
  const { bench, boardShown } = page;
  const status = bench.status.value;
  const { sign, words } = linkOf(bench.stage.value, status, page.words.value);
  return (
    <p class="link">
      <svg class="link-sign" viewBox="0 0 28 12" aria-hidden="true" data-sign={sign}>
        {sign === 'bar' && <path d="M1 6H27" />}
        {sign === 'broken' && <path d="M1 6H10M18 6H27" />}
        {sign === 'ring' && <circle cx="14" cy="6" r="4.5" />}
      </svg>
      <span class="link-words" title={words}>
        {words}
      </span>
      {status !== null && (
        <button
          type="button"
          class="fold"
          aria-expanded={boardShown.value}
          aria-controls="board"
          onClick={() => {
            boardShown.value = !boardShown.value;
            // A question that is out of sight is not open any more.
            page.zeroPrompt.value = null;
          }}
        >
          {page.words.value.top.header.theBoard}
        </button>
      )}
    </p>
  );
}

type Sign = 'bar' | 'broken' | 'ring';

interface Link {
  readonly sign: Sign;
  readonly words: string;
}

function linkOf(stage: Stage, status: Status | null, catalogue: Catalogue): Link {
  const say = catalogue.top.link;
  if (stage === 'connecting') return { sign: 'broken', words: say.notConnected };
  if (stage === 'no-news' || status === null)
    return { sign: 'broken', words: say.noNews };
  const { port, sampleRate_Hz } = status;
  const rate = sampleRate_Hz === null ? '' : ` ${say.rate(rateText(sampleRate_Hz, catalogue))}`;
  switch (port.phase) {
    case 'searching':
      return { sign: 'broken', words: say.noBoard };
    case 'opening':
      return { sign: 'broken', words: of(port.board.name, say.opening) };
    case 'open':
      return stage === 'silent'
        ? { sign: 'broken', words: of(port.board.name, say.silent) }
        : { sign: 'bar', words: `${say.connected}${rate}${troubleWords(status, catalogue)}` };
    case 'unplugged':
      return { sign: 'broken', words: of(port.board.name, say.unplugged) };
    case 'refused':
      return { sign: 'broken', words: of(port.board.name, say.notOpened) };
    case 'meters':
      return { sign: 'ring', words: say.meters };
    case 'simulated':
      return { sign: 'ring', words: `${say.simulated}${rate}` };
    case 'replaying':
      return { sign: 'ring', words: `${port.file}.${rate}` };
    case 'ended':
      return { sign: 'broken', words: say.ended };
  }
}

/** Board clocks within this of the laptop's are as good as can be expected. */
const CLOCK_LIMIT_PPM = 10_000;

/** What is wrong with the lines, as far as it does not stop them. */
function troubleWords({ faults, clockDrift_ppm }: Status, catalogue: Catalogue): string {
  const { badLines, lost, clockOff } = catalogue.top.link;
  const bad = faults.malformed + faults.checksum + faults.tooLong + faults.fieldCount;
  const words = [
    bad > 0 && badLines(bad),
    faults.sequenceGap > 0 && lost(faults.sequenceGap),
    clockDrift_ppm !== null &&
      Math.abs(clockDrift_ppm) > CLOCK_LIMIT_PPM &&
      clockOff(percentOf(clockDrift_ppm, catalogue)),
  ];
  return words.flatMap((one) => (one === false ? [] : [` ${one}`])).join('');
}

function percentOf(drift_ppm: number, { number }: Catalogue): string {
  return `${number((Math.abs(drift_ppm) / 10_000).toFixed(1))}${UNIT_SPACE}%`;
}

function of(board: string, what: string): string {
  return `${board}: ${what}.`;
}

function rateText(rate_Hz: number, { number }: Catalogue): string {
  const shown = rate_Hz >= 10 ? rate_Hz.toFixed(0) : number(rate_Hz.toFixed(1));
  return shown.replace(/\B(?=(\d{3})+$)/g, UNIT_SPACE);
}
