/** Check against a multimeter: pairs of readings, and the gain and offset they come to. */
import type { WiredQuantity } from '#core/instrument/channel.ts';
import { ComparisonSchema, MOST_POINTS } from '#core/instrument/designs.ts';
import {
  calibrate,
  meterLimit,
  type Calibration,
  type Comparison,
} from '#core/instrument/meter-comparison.ts';
import { calibratedSettings } from '#core/instrument/sketch-settings.ts';
import { decimalAt, placeOf, scaled, UNIT_SPACE } from '#core/metrology/format.ts';
import { Field } from './field.tsx';
import { addPoint, setPoint, textsOf, type Form, type PointText } from './form.ts';
import { Group, NothingYet, Panel, type PanelProps } from './panel.tsx';
import { Amount, SketchSettings } from './result.tsx';
import { COMPARED_HINT, UseHere } from './use-here.tsx';
import { amount, percent, UNITS } from './words.ts';

const READING_UNITS: Readonly<Record<WiredQuantity, string>> = { voltage: 'V', current: 'mA' };
const SKETCH_UNITS: Readonly<Record<WiredQuantity, string>> = { voltage: 'mV', current: 'mA' };
const QUANTITIES = ['voltage', 'current'] as const;

/** Rows that nothing was typed into are left out. */
function filledRows(form: Form): { readonly row: number; readonly point: PointText }[] {
  return form.points.value.flatMap((point, row) =>
    point.meter.trim() === '' && point.page.trim() === '' ? [] : [{ row, point }],
  );
}

interface Compared {
  readonly comparison: Comparison | null;
  readonly calibration: Calibration | null;
  readonly problems: readonly Problem[];
}

/** What is wrong with the readings; of no row, it is said beside the result. */
interface Problem {
  readonly row: number | null;
  /** The cell of the row. */
  readonly part: unknown;
  readonly message: string;
}

function compare(form: Form): Compared {
  const rows = filledRows(form);
  const result = ComparisonSchema.safeParse({
    ...textsOf(form),
    quantity: form.quantity.value,
    points: rows.map(({ point }) => point),
  });
  if (result.success) {
    return { comparison: result.data, calibration: calibrate(result.data), problems: [] };
  }
  const problems = result.error.issues
    .filter(({ path }) => path[0] === 'points')
    .map(({ path: [, at, part], message }) => {
      return { row: rows[Number(at)]?.row ?? null, part, message };
    });
  return { comparison: null, calibration: null, problems };
}

export function MeterPanel({ form }: PanelProps) {
  const compared = compare(form);
  const quantity = form.quantity.value;
  const typed = (
    <>
      <Group title="What was measured">
        <div class="choice" role="group" aria-label="What was measured">
          {QUANTITIES.map((one) => (
            <button
              type="button"
              key={one}
              aria-pressed={quantity === one}
              onClick={() => (form.quantity.value = one)}
            >
              {one === 'voltage' ? 'Voltage, in V' : 'Current, in mA'}
            </button>
          ))}
        </div>
      </Group>
      <Points form={form} compared={compared} />
      <Group title="The meter’s accuracy: ± of reading, and counts">
        <Field form={form} name="meterRelative" />
        <Field form={form} name="meterCounts" />
        <p class="hint">From the meter’s manual, for the range that it was in.</p>
      </Group>
      <Group title="In the sketch while you read">
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
  return (
    <Group title="Readings of the same moment">
      <div class="point heads" aria-hidden="true">
        <span />
        <span>meter</span>
        <span>page</span>
        <span>left over</span>
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
          One more pair
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
  const cell = (part: 'meter' | 'page') => (
    <input
      type="text"
      inputMode="decimal"
      autocomplete="off"
      aria-label={`Pair ${row + 1}: ${part}, in ${unit}`}
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
        <span>{residual === null ? '' : leftOver(residual, form.quantity.value)}</span>
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
  const general = compared.problems.filter(({ row }) => row === null);
  return (
    <>
      <NothingYet />
      {general.map(({ message }) => (
        <p key={message}>{message}</p>
      ))}
      {compared.comparison !== null && (
        <p>
          No line goes through these: the readings of the page must differ, and rise when those of
          the meter rise.
        </p>
      )}
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
function meterFact({ accuracy, points }: Comparison, quantity: WiredQuantity): string {
  const [largest] = points.map(({ meter }) => meter).sort((a, b) => b.value - a.value);
  if (largest === undefined) return '';
  const unit = UNITS[quantity];
  const reading = amount(largest.value, unit);
  const limit = amount(meterLimit(accuracy, largest), unit, 2);
  return `At ${reading} the meter itself may be off by ±${limit}. That is in it: it is the same for every pair, so more pairs don’t make it smaller.`;
}

function Found({ comparison, calibration, quantity }: FoundProps) {
  const { gain, gainUncertainty, offset, offsetUncertainty, fit } = calibration;
  const unit = SKETCH_UNITS[quantity];
  const place = placeOf(scaled(offsetUncertainty, -3));
  const offsetWords = decimalAt(scaled(offset, -3), place);
  const uncertaintyWords = decimalAt(scaled(offsetUncertainty, -3), place);
  return (
    <>
      <Amount name="gain" value={gain} uncertainty={gainUncertainty} unit="" />
      {(fit.birgeRatio ?? 0) > SCATTER_LIMIT && (
        <p class="notice alarm">
          {`The pairs lie ${fit.birgeRatio?.toFixed(0)} times farther from a line than their last digits explain. Look for a misread number, or read again while both stand still.`}
        </p>
      )}
      <p class="sentence">
        {`Gain ${gain.toFixed(4)}, uncertain by ${percent(gainUncertainty / gain)}. Offset ${offsetWords}${UNIT_SPACE}${unit}, uncertain by ${uncertaintyWords}${UNIT_SPACE}${unit}.`}
      </p>
      <ul class="facts">
        <li>{meterFact(comparison, quantity)}</li>
        {fit.birgeRatio === null && (
          <li>Two pairs always lie on a line. A third would show a misread number.</li>
        )}
        <li>
          It holds for the meter’s range, this USB port and this cable: when the converter’s
          reference is the USB voltage, check again with another laptop.
        </li>
      </ul>
      <SketchSettings
        title="For the top of the sketch"
        text={calibratedSettings(quantity, calibration)}
      />
      <UseHere
        canBeZeroed={false}
        hint={COMPARED_HINT}
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
