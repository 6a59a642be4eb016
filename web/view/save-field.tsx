/** The frozen power field as a picture: curve and answer plot, drawn once more as one SVG. */
import { useRef } from 'preact/hooks';
import { AnswerPlot } from './answer-plot.tsx';
import { curveX, powerY, type FieldBox } from './field-box.ts';
import { FieldGround, StretchNames } from './field-ground.tsx';
import { keepFile } from './keep-file.ts';
import type { PageState } from './page-state.ts';
import { pngFile, svgFile } from './picture.ts';

interface Props {
  readonly page: PageState;
  readonly box: FieldBox;
}

/** Room above the field for what the picture is of, rem. */
const TITLE_ROOM = 3;

export function SaveField({ page, box }: Props) {
  const drawing = useRef<SVGSVGElement>(null);
  if (page.drawing.pausedAt.value === null) return null;
  const { keep, save } = page.words.value.top.field;
  const saveAs = async (format: 'SVG' | 'PNG'): Promise<void> => {
    if (drawing.current === null) return;
    const file = format === 'SVG' ? svgFile(drawing.current) : await pngFile(drawing.current);
    if (file !== null) keepFile(file, `stillmark-power.${format.toLowerCase()}`);
  };
  const room = TITLE_ROOM * box.rem;
  return (
    <>
      <p class="save-field">
        <span class="soft">{keep}</span>
        {(['SVG', 'PNG'] as const).map((format) => (
          <button
            key={format}
            type="button"
            class="underlined"
            aria-label={save(format)}
            onClick={() => void saveAs(format)}
          >
            {format}
          </button>
        ))}
      </p>
      <svg
        ref={drawing}
        class="field-picture"
        viewBox={`0 ${-room} ${box.width} ${box.height + room}`}
        aria-hidden="true"
      >
        <Title page={page} box={box} />
        <FieldGround page={page} box={box} />
        <Curve page={page} box={box} />
        <StretchNames page={page} box={box} />
        <AnswerPlot page={page} box={box} />
      </svg>
    </>
  );
}

/** The question, and of which session and minute; simulated where it was. */
function Title({ page, box }: Props) {
  const words = page.words.value;
  const { status, experiment } = page.bench;
  const session = status.value?.session.name ?? '';
  const at = page.drawing.pausedAt.value?.toLocaleString(words.language, {
    dateStyle: 'long',
    timeStyle: 'short',
  });
  const simulated = status.value?.simulated === true ? words.top.list.simulated : '';
  const what = [session, at, simulated].filter((text) => text !== '' && text !== undefined);
  return (
    <>
      <text x={0} y={-1.9 * box.rem}>
        {experiment.value.plan?.question ?? words.quantity.power_W}
      </text>
      <text class="soft" x={0} y={-0.7 * box.rem}>
        {what.join(' · ')}
      </text>
    </>
  );
}

/** What moves is thin, what stands still is heavy: as on the page. */
function Curve({ page, box }: Props) {
  const { time_s, all, settled } = page.powerCurve.value;
  const axis = page.powerAxis.value;
  const { now_s } = page.drawing.frame.value;
  const pathOf = (values: readonly (number | null)[]): string => {
    let isOpen = false;
    return values
      .map((value, i) => {
        const verb = isOpen ? 'L' : 'M';
        isOpen = value !== null;
        if (value === null) return '';
        const x = curveX(box, time_s[i] ?? now_s, now_s);
        return `${verb}${x.toFixed(1)} ${powerY(box, axis, value).toFixed(1)}`;
      })
      .join('');
  };
  return (
    <>
      <path class="curve-moving" d={pathOf(all)} />
      <path class="curve-settled" d={pathOf(settled)} />
    </>
  );
}
