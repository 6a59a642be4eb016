/** Check against a multimeter: pairs of readings, and the gain and offset they come to. */
import type { WiredQuantity } from '#core/instrument/channel.ts';
import {
  ComparisonSchema,
  FEWEST_POINTS,
  MOST_POINTS,
  readingFault,
} from '#core/instrument/designs.ts';
import {
  calibrate,
  meterLimit,
  type Calibration,
  type Comparison,
} from '#core/instrument/meter-comparison.ts';
import { calibratedSettings } from '#core/instrument/sketch-settings.ts';
import { decimalAt, placeOf, scaled, UNIT_SPACE } from '#core/metrology/format.ts';
import { Field } from './field.tsx';
import { UNITS } from './amounts.ts';
import { addPoint, setPoint, textsOf, withPointIn, type Form, type PointText } from './form.ts';
import { Group, NothingYet, Panel, type PanelProps } from './panel.tsx';
import { Amount, SketchSettings } from './result.tsx';
import { useSpoken, type Spoken } from './speech.ts';
import { UseHere } from './use-here.tsx';

const READING_UNITS: Readonly<Record<WiredQuantity, string>> = { voltage: 'V', current: 'mA' };
const SKETCH_UNITS: Readonly<Record<WiredQuantity, string>> = { voltage: 'mV', current: 'mA' };
const QUANTITIES = ['voltage', 'current'] as const;

type Part = keyof PointText;
const PARTS: readonly Part[] = ['meter', 'page'];

interface FilledRow {
  readonly row: number;
  /** With a decimal point. */
  readonly point: PointText;
}

/** Rows that nothing was typed into are left out. */
function filledRows(form: Form): FilledRow[] {
  return form.points.value.flatMap(({ meter, page }, row) => {
    if (meter.trim() === '' && page.trim() === '') return [];
    return [{ row, point: { meter: withPointIn(form, meter), page: withPointIn(form, page) } }];
  });
}

interface Compared {
  readonly comparison: Comparison | null;
  readonly calibration: Calibration | null;
  readonly problems: readonly Problem[];
  readonly tooFew: boolean;
}

/** What is wrong with the reading in a cell. */
interface Problem {
  readonly row: number;
  readonly part: Part;
  readonly message: string;
}

function compare(form: Form, say: Spoken['say']): Compared {
  const rows = filledRows(form);
  const { data } = ComparisonSchema.safeParse({
    ...textsOf(form),
    quantity: form.quantity.value,
    points: rows.map(({ point }) => point),
  });
  return {
    comparison: data ?? null,
    calibration: data === undefined ? null : calibrate(data),
    problems: rows.flatMap((filled) => problemsOf(filled, say)),
    tooFew: rows.length < FEWEST_POINTS,
  };
}

function problemsOf({ row, point }: FilledRow, { compared: { fault } }: Spoken['say']): Problem[] {
  return PARTS.flatMap((part) => {
    const found = readingFault(point[part]);
    return found === null ? [] : [{ row, part, message: fault[part][found] }];
  });
}

export function MeterPanel({ form }: PanelProps) {
  const { say } = useSpoken();
  const compared = compare(form, say);
  const quantity = form.quantity.value;
  const typed = (
    <>
      <Group title={say.compared.measured}>
        <div class="choice" role="group" aria-label={say.compared.measured}>
          {QUANTITIES.map((one) => (
            <button
              type="button"
              key={one}
              aria-pressed={quantity === one}
              onClick={() => (form.quantity.value = one)}
            >
              {say.compared.quantity[one]}
            </button>
          ))}
        </div>
      </Group>
      <Points form={form} compared={compared} />
      <Group title={say.compared.accuracy}>
        <Field form={form} name="meterRelative" />
        <Field form={form} name="meterCounts" />
        <p class="hint">{say.compared.accuracyHint}</p>
      </Group>
      <Group title={say.compared.present}>
        <Field form={form} name="presentGain" />
        <Field form={form} name="presentOffset" unit={SKETCH_UNITS[quantity]} />
      </Group>
    </>
  );
  const { comparison, calibration } = compared;
  const result =
    comparison === null || calibration === null ? (
      <NoLine compared={compared} />
    ) : (
      <Found comparison={comparison} calibration={calibration} quantity={quantity} />
    );
  return <Panel typed={typed} result={result} />;
}

function Points({ form, compared }: { form: Form; compared: Compared }) {
  const unit = READING_UNITS[form.quantity.value];
  const residuals = compared.calibration?.fit.residuals ?? [];
  const rows = filledRows(form);
  const say = useSpoken().say.compared;
  return (
    <Group title={say.readings}>
      <div class="point heads" aria-hidden="true">
        <span />
        <span>{say.heads.meter}</span>
        <span>{say.heads.page}</span>
        <span>{say.heads.leftOver}</span>
      </div>
      {form.points.value.map((point, row) => {
        const at = rows.findIndex((one) => one.row === row);
        return (
          <PointRow
            key={row}
            form={form}
            row={row}
            point={point}
            unit={unit}
            residual={residuals[at] ?? null}
            problems={compared.problems.filter((one) => one.row === row)}
          />
        );
      })}
      {form.points.value.length < MOST_POINTS && (
        <button type="button" class="page-button" onClick={() => addPoint(form)}>
          {say.onePairMore}
        </button>
      )}
    </Group>
  );
}

interface PointRowProps {
  readonly form: Form;
  readonly row: number;
  readonly point: PointText;
  readonly unit: string;
  /** In SI; null while there is no line. */
  readonly residual: number | null;
  readonly problems: Compared['problems'];
}

function PointRow({ form, row, point, unit, residual, problems }: PointRowProps) {
  const problemId = `point-${row}-problem`;
  const { say, words } = useSpoken();
  const cell = (part: Part) => (
    <input
      type="text"
      inputMode="decimal"
      autocomplete="off"
      aria-label={say.compared.cell[part](row + 1, unit)}
      aria-invalid={problems.some((one) => one.part === part)}
      aria-describedby={problems.length > 0 ? problemId : undefined}
      value={point[part]}
      onInput={(event) => setPoint(form, row, part, event.currentTarget.value)}
    />
  );
  return (
    <>
      <div class="point">
        <span class="soft">{row + 1}</span>
        {cell('meter')}
        {cell('page')}
        <span>{residual === null ? '' : words.number(leftOver(residual, form.quantity.value))}</span>
      </div>
      {problems.length > 0 && (
        <p class="problem" id={problemId}>
          {problems.map(({ message }) => message).join(' ')}
        </p>
      )}
    </>
  );
}

/** What the line leaves unexplained, to one digit, in mV or mA. */
function leftOver(residual: number, quantity: WiredQuantity): string {
  const milli = scaled(residual, -3);
  const place = Math.abs(milli) > 1e-9 ? Math.max(placeOf(Math.abs(milli)), -4) : 0;
  return `${decimalAt(milli, place)}${UNIT_SPACE}${SKETCH_UNITS[quantity]}`;
}

function NoLine({ compared }: { compared: Compared }) {
  const say = useSpoken().say.compared;
  return (
    <>
      <NothingYet />
      {compared.tooFew && <p>{say.tooFew}</p>}
      {compared.comparison !== null && <p>{say.noLine}</p>}
    </>
  );
}

/** More scatter than this is more than chance for a handful of readings. */
const SCATTER_LIMIT = 3;

interface FoundProps {
  readonly comparison: Comparison;
  readonly calibration: Calibration;
  readonly quantity: WiredQuantity;
}

/** How far the meter itself may be off, at the largest reading. */
function meterFact(
  { accuracy, points }: Comparison,
  quantity: WiredQuantity,
  { say, amount }: Spoken,
): string {
  const [largest] = points.map(({ meter }) => meter).sort((a, b) => b.value - a.value);
  if (largest === undefined) return '';
  const unit = UNITS[quantity];
  const reading = amount(largest.value, unit);
  const limit = amount(meterLimit(accuracy, largest), unit, 2);
  return say.compared.meterLimit(reading, limit);
}

function Found({ comparison, calibration, quantity }: FoundProps) {
  const { gain, gainUncertainty, offset, offsetUncertainty, fit } = calibration;
  const spoken = useSpoken();
  const { number } = spoken.words;
  const say = spoken.say.compared;
  const place = placeOf(scaled(offsetUncertainty, -3));
  const inMilli = (value: number): string =>
    `${number(decimalAt(scaled(value, -3), place))}${UNIT_SPACE}${SKETCH_UNITS[quantity]}`;
  return (
    <>
      <Amount name={say.gain} value={gain} uncertainty={gainUncertainty} unit="" />
      {(fit.birgeRatio ?? 0) > SCATTER_LIMIT && (
        <p class="notice alarm">
          {say.scattered(fit.birgeRatio?.toFixed(0) ?? '')}
        </p>
      )}
      <p class="sentence">
        {say.found(
          number(gain.toFixed(4)),
          spoken.percent(gainUncertainty / gain),
          inMilli(offset),
          inMilli(offsetUncertainty),
        )}
      </p>
      <ul class="facts">
        <li>{meterFact(comparison, quantity, spoken)}</li>
        {fit.birgeRatio === null && <li>{say.twoPairs}</li>}
        <li>{say.holdsFor}</li>
      </ul>
      <SketchSettings text={calibratedSettings(quantity, calibration)} />
      <UseHere
        canBeZeroed={false}
        hint={spoken.say.use.comparedHint}
        told={() => ({
          [quantity]: {
            kind: 'stated',
            gainUncertainty: gainUncertainty / gain,
            offsetUncertainty,
          },
        })}
      />
    </>
  );
}
