/** The meters that are read: said once, then one line each. */
import { LONGEST_TYPED, unitsOfMeter, type MeterForm } from '#core/experiment/keyed-form.ts';
import { UNIT_SPACE } from '#core/metrology/format.ts';
import { Field, TextField } from '../plan/fields.tsx';
import type { PageState } from '../view/page-state.ts';
import type { KeyedFields } from './keyed-fields.ts';
import { NO_WIND_METER } from './keying.ts';

const METERS = ['voltage', 'current', 'windSpeed'] as const;
type MeterName = (typeof METERS)[number];

interface MetersProps {
  readonly page: PageState;
  readonly fields: KeyedFields;
}

export function Meters({ page, fields }: MetersProps) {
  const { metersShown } = page.operator.keying;
  const { say, draft, set } = fields;
  const { meters } = draft;
  if (!metersShown.value) {
    return (
      <p class="meters-known">
        {METERS.map((name) => {
          const meter = meters[name];
          return meter && <span key={name}>{`${say.meter[name]}: ${meterText(meter)}`}</span>;
        })}
        <button type="button" class="underlined" onClick={() => (metersShown.value = true)}>
          {say.changeMeters}
        </button>
      </p>
    );
  }
  const setMeter = (name: MeterName, meter: MeterForm | null): void =>
    set({ meters: { ...meters, [name]: meter } });
  return (
    <div class="meters">
      {METERS.map((name) => {
        const meter = meters[name];
        return meter && (
          <MeterFields
            key={name}
            name={name}
            meter={meter}
            fields={fields}
            setMeter={(changed) => setMeter(name, changed)}
          />
        );
      })}
      <p class="soft">{say.metersHint}</p>
      <p class="more">
        <button
          type="button"
          class="underlined"
          onClick={() => setMeter('windSpeed', meters.windSpeed === null ? NO_WIND_METER : null)}
        >
          {meters.windSpeed === null
            ? say.addWindMeter
            : `${page.words.value.bench.form.takeOut}: ${say.meter.windSpeed}`}
        </button>
      </p>
    </div>
  );
}

/** "20 V, 0.01 V, ±(0.5 % + 2)" */
function meterText({ unit, range, lastDigit, percent, counts }: MeterForm): string {
  const accuracy = `±(${percent}${UNIT_SPACE}% + ${counts})`;
  return `${range}${UNIT_SPACE}${unit}, ${lastDigit}${UNIT_SPACE}${unit}, ${accuracy}`;
}

interface MeterFieldsProps {
  readonly name: MeterName;
  readonly meter: MeterForm;
  readonly fields: KeyedFields;
  setMeter(meter: MeterForm): void;
}

function MeterFields({ name, meter, fields, setMeter }: MeterFieldsProps) {
  const { say } = fields;
  return (
    <fieldset class="meter">
      <legend>{say.meter[name]}</legend>
      {(['range', 'lastDigit', 'percent', 'counts'] as const).map((part) => (
        <TextField
          key={part}
          fields={fields}
          name={`meters.${name}.${part}`}
          label={`${say.meter[name]}, ${say[part]}`}
          shortLabel={say[part]}
          class="short"
          isDecimal
          longest={LONGEST_TYPED}
          value={meter[part]}
          onValue={(value) => setMeter({ ...meter, [part]: value })}
        />
      ))}
      <Field fields={fields} name={`meters.${name}.unit`} label={say.unit} class="short">
        <select
          name={`meters.${name}.unit`}
          aria-label={`${say.meter[name]}, ${say.unit}`}
          value={meter.unit}
          onChange={({ currentTarget }) => setMeter({ ...meter, unit: currentTarget.value })}
        >
          {unitsOfMeter(name).map((unit) => (
            <option key={unit} value={unit}>
              {unit}
            </option>
          ))}
        </select>
      </Field>
    </fieldset>
  );
}
