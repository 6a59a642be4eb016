/** What a design comes to: the largest reading as a figure, the sentence, the causes, the settings. */
import { useRef, useState } from 'preact/hooks';
import type { WiredChannel } from '#core/instrument/channel.ts';
import { decimalText } from '#core/instrument/decimal-text.ts';
import { contribution, type GainUncertainty } from '#core/instrument/tolerance.ts';
import { decimalAt, firstPlace, prefixFor, scaled, NO_VALUE, UNIT_SPACE } from '#core/metrology/format.ts';
import { WEIGHT } from '../draw/numeral.ts';
import { Figure } from '../view/figure.tsx';
import { UNITS } from './amounts.ts';
import { useSpoken } from './speech.ts';
import type { Said } from './words.ts';

/** A digit is heavy where the uncertainty leaves it as it is: u below half of its place. */
function digitWeights(text: string, uncertainty: number): number[] {
  const point = text.includes('.') ? text.indexOf('.') : text.length;
  return [...text].map((_, i) => {
    const place = i < point ? point - 1 - i : point - i;
    return 10 ** place / 2 >= uncertainty ? WEIGHT.heavy : WEIGHT.hairline;
  });
}

export interface FigureValue {
  readonly value: number;
  /** Standard, in the unit of the value. */
  readonly uncertainty: number;
  readonly unit: string;
}

/** A number of three digits in the page's own figures. */
export function Amount({ value, uncertainty, unit, name }: FigureValue & { name: string }) {
  const rounded = Number(value.toPrecision(3));
  const { exponent, symbol } = prefixFor(rounded);
  const number = scaled(rounded, exponent);
  const text = decimalAt(number, firstPlace(number) - 2);
  const { words } = useSpoken();
  return (
    <p class="amount">
      <span class="sr">{words.page.markAt(name, `${words.number(text)} ${symbol}${unit}`)}</span>
      <Figure text={words.number(text)} weights={digitWeights(text, scaled(uncertainty, exponent))} />
      <span class="beside" aria-hidden="true">
        <span class="soft">{name}</span>
        <span class="unit">{`${symbol}${unit}`}</span>
      </span>
    </p>
  );
}

/** Where there is nothing to say yet. */
export function NoAmount() {
  return (
    <p class="amount none">
      <Figure text={NO_VALUE} weights={[WEIGHT.heavy]} />
    </p>
  );
}

export function LargestReading({ channel }: { channel: WiredChannel }) {
  return (
    <Amount
      name={useSpoken().say.said.atMost}
      value={channel.range}
      uncertainty={channel.range * channel.gain.relative}
      unit={UNITS[channel.quantity]}
    />
  );
}

export function SaidOf({ said }: { said: Said }) {
  return (
    <>
      {said.warnings.map((warning) => (
        <p class="notice alarm" key={warning}>
          {warning}
        </p>
      ))}
      <p class="sentence">{said.sentence}</p>
      <ul class="facts">
        {said.facts.map((fact) => (
          <li key={fact}>{fact}</li>
        ))}
      </ul>
    </>
  );
}

/** Longest bar, in units of the drawing. */
const BAR = 100;

/** Each part's share; a bar is as long as what it adds, against the whole. */
export function Causes({ gain }: { gain: GainUncertainty }) {
  const { say, words, percent } = useSpoken();
  const rows = gain.causes.map((cause) => {
    const name = words.budget.cause[cause.name];
    return {
      name: cause.shared ? say.causes.shared(name) : name,
      limit: `±${words.number(decimalText(cause.limit * 100, 3))}${UNIT_SPACE}%`,
      adds: contribution(cause),
    };
  });
  return (
    <table class="causes">
      <caption>{say.causes.caption}</caption>
      <thead>
        <tr>
          <th scope="col">{say.causes.part}</th>
          <th scope="col">{say.causes.limits}</th>
          <th scope="col">{say.causes.adds}</th>
          <td />
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, limit, adds }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{limit}</td>
            <td>{percent(adds)}</td>
            <td>
              <Bar share={gain.relative > 0 ? adds / gain.relative : 0} />
            </td>
          </tr>
        ))}
        <tr class="whole">
          <th scope="row">{say.causes.together}</th>
          <td />
          <td>{percent(gain.relative)}</td>
          <td>
            <Bar share={gain.relative > 0 ? 1 : 0} />
          </td>
        </tr>
      </tbody>
    </table>
  );
}

function Bar({ share }: { share: number }) {
  return (
    <svg class="bar" viewBox={`0 0 ${BAR} 8`} preserveAspectRatio="none" aria-hidden="true">
      <rect width={share * BAR} height="8" />
    </svg>
  );
}

interface SettingsProps {
  readonly text: string;
}

/** Lines for the top of the sketch, to copy. */
export function SketchSettings({ text }: SettingsProps) {
  const say = useSpoken().say.sketch;
  const lines = useRef<HTMLPreElement>(null);
  const [said, setSaid] = useState<'copy' | 'copied' | 'marked'>('copy');
  const copy = async (): Promise<void> => {
    const isCopied = await copyText(text);
    if (!isCopied && lines.current !== null) getSelection()?.selectAllChildren(lines.current);
    setSaid(isCopied ? 'copied' : 'marked');
  };
  return (
    <section class="settings">
      <div class="settings-head">
        <h2>{say.title}</h2>
        <button type="button" class="page-button" onClick={() => void copy()}>
          {say[said]}
        </button>
      </div>
      <pre ref={lines} tabIndex={0} aria-label={say.title}>
        {text}
      </pre>
    </section>
  );
}

/** Browsers give the clipboard to this computer and to https only. */
async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}
