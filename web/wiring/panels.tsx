/** The three kinds of wiring: what is typed on the left, what it comes to on the right. */
import type { ComponentChildren } from 'preact';
import type { z } from 'zod';
import {
  DividerDesignSchema,
  MonitorDesignSchema,
  ShuntDesignSchema,
  type DividerDesign,
  type ShuntDesign,
} from '#core/instrument/designs.ts';
import { dividerChannel } from '#core/instrument/divider.ts';
import { MONITOR_RANGES, monitorCurrentChannel } from '#core/instrument/monitor.ts';
import { preferredAtMost, preferredDivider, type Series } from '#core/instrument/preferred-values.ts';
import { shuntChannel } from '#core/instrument/shunt.ts';
import { builtSettings, monitorSettings } from '#core/instrument/sketch-settings.ts';
import { powerUncertainty } from '#core/instrument/tolerance.ts';
import { DividerCircuit, MonitorCircuit, ShuntCircuit } from './circuits.tsx';
import { Field } from './field.tsx';
import { textsOf, type Form } from './form.ts';
import { Causes, LargestReading, NoAmount, SaidOf, SketchSettings } from './result.tsx';
import { amount, dividerWords, monitorWords, ohms, percent, shuntWords } from './words.ts';

export interface PanelProps {
  readonly form: Form;
}

export function Panel({ typed, result }: { typed: ComponentChildren; result: ComponentChildren }) {
  return (
    <div class="panel">
      <form class="typed" onSubmit={(event) => event.preventDefault()}>
        {typed}
      </form>
      <section class="result" aria-label="What it comes to">
        {result}
      </section>
    </div>
  );
}

export function Group({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <fieldset>
      <legend>{title}</legend>
      {children}
    </fieldset>
  );
}

export function NothingYet() {
  return (
    <>
      <NoAmount />
      <p class="sentence">Nothing to say yet. Look at what is marked.</p>
    </>
  );
}

function parsed<Out>(schema: z.ZodType<Out, Record<string, unknown>>, form: Form): Out | null {
  const typed = { ...textsOf(form), monitorRange: form.monitorRange.value };
  return schema.safeParse(typed).data ?? null;
}

const CONVERTER_FIELDS = ['reference', 'referenceTolerance', 'bits', 'partsPerStep'] as const;
type ConverterTexts = Readonly<Record<(typeof CONVERTER_FIELDS)[number], string>>;

/** Our sketches' boards: what each has as reference, and how it divides a step. */
const BOARDS: readonly { readonly name: string; readonly texts: ConverterTexts }[] = [
  {
    name: '8-bit, 5 V',
    texts: { reference: '5', referenceTolerance: '5', bits: '10', partsPerStep: '64' },
  },
  {
    name: '32-bit, 3.3 V',
    texts: { reference: '3.3', referenceTolerance: '3', bits: '12', partsPerStep: '16' },
  },
];

function isTyped(form: Form, texts: ConverterTexts): boolean {
  return CONVERTER_FIELDS.every((field) => form.texts[field].value === texts[field]);
}

function BoardFields({ form }: PanelProps) {
  return (
    <Group title="The board’s converter">
      <div class="choice" role="group" aria-label="Board">
        {BOARDS.map(({ name, texts }) => (
          <button
            type="button"
            key={name}
            aria-pressed={isTyped(form, texts)}
            onClick={() => {
              for (const field of CONVERTER_FIELDS) form.texts[field].value = texts[field];
            }}
          >
            {name}
          </button>
        ))}
      </div>
      <Field form={form} name="reference" tolerance="referenceTolerance" />
      <Field form={form} name="bits" />
      <Field form={form} name="partsPerStep" />
      <p class="hint">
        5 V from a USB port lie within 5 %. The sketch sends the mean of many conversions, in parts
        of a step: it resolves them where the signal’s noise spreads over more than a step.
      </p>
    </Group>
  );
}

/** A set of parts that can be bought, and a button that takes it into the form. */
function Offer({ words, take }: { words: string; take: () => void }) {
  return (
    <p class="offer">
      <span>{words}</span>
      <button type="button" class="page-button" onClick={take}>
        Take it
      </button>
    </p>
  );
}

const SERIES: readonly Series[] = ['E12', 'E24'];

/** The finer series is worth a line only where it has something else to offer. */
function DividerOffers({ form, design }: PanelProps & { design: DividerDesign }) {
  const { divider, largest_V } = design;
  const offers = SERIES.flatMap((series) => {
    const found = preferredDivider(series, largest_V, divider.converter);
    if (found === null) return [];
    return [{ series, found, parts: `${ohms(found.upper_Ohm)} over ${ohms(found.lower_Ohm)}` }];
  });
  const different = offers.filter(
    ({ parts }, i) => offers.findIndex((one) => one.parts === parts) === i,
  );
  return different.map(({ series, found, parts }) => {
    const { range } = dividerChannel({ ...divider, ...found });
    return (
      <Offer
        key={series}
        words={`${series}: ${parts}, up to ${amount(range, 'V')}.`}
        take={() => {
          form.texts.upper.value = String(found.upper_Ohm / 1000);
          form.texts.lower.value = String(found.lower_Ohm / 1000);
        }}
      />
    );
  });
}

export function DividerPanel({ form }: PanelProps) {
  const design = parsed(DividerDesignSchema, form);
  const { upper, lower } = form.texts;
  const typed = (
    <>
      <DividerCircuit upper={`${upper.value} kΩ`} lower={`${lower.value} kΩ`} />
      <Group title="The two resistors">
        <Field form={form} name="upper" tolerance="upperTolerance" />
        <Field form={form} name="lower" tolerance="lowerTolerance" />
      </Group>
      <Group title="The rig">
        <Field form={form} name="largestVoltage" />
        <Field form={form} name="sourceResistance" />
        <p class="hint">
          Measure the largest voltage with a multimeter: fan at its fastest, lamp taken out.
        </p>
      </Group>
      <BoardFields form={form} />
    </>
  );
  if (design === null) return <Panel typed={typed} result={<NothingYet />} />;
  const channel = dividerChannel(design.divider);
  const result = (
    <>
      <LargestReading channel={channel} />
      <SaidOf said={dividerWords(design)} />
      <section class="offers">
        <h2>Resistors in the shops for {amount(design.largest_V, 'V', 2)}</h2>
        <DividerOffers form={form} design={design} />
      </section>
      <Causes gain={channel.gain} />
      <SketchSettings title="For the top of the sketch" text={builtSettings(channel)} />
    </>
  );
  return <Panel typed={typed} result={result} />;
}

function ShuntOffers({ form, design }: PanelProps & { design: ShuntDesign }) {
  const { shunt, largest_A } = design;
  const highest_V = shunt.converter.reference_V - shunt.amplifierMargin_V;
  const most_Ohm = highest_V / shunt.amplifierGain / largest_A;
  const found_Ohm = preferredAtMost('E12', most_Ohm);
  const { range } = shuntChannel({ ...shunt, resistance_Ohm: found_Ohm });
  return (
    <Offer
      words={`E12: ${ohms(found_Ohm)}, up to ${amount(range, 'A')}.`}
      take={() => (form.texts.shunt.value = String(found_Ohm))}
    />
  );
}

/** What both channels of the board mean for power, when the divider's form holds too. */
function powerFact(form: Form, shunt: ShuntDesign): string | null {
  const divider = parsed(DividerDesignSchema, form);
  if (divider === null) return null;
  const voltage = dividerChannel(divider.divider).gain;
  const together = powerUncertainty(voltage, shuntChannel(shunt.shunt).gain);
  return `With the divider of this page, power is uncertain by ${percent(together)}: the converter’s reference serves both channels, so its share counts twice.`;
}

export function ShuntPanel({ form }: PanelProps) {
  const design = parsed(ShuntDesignSchema, form);
  const { shunt, amplifierGain } = form.texts;
  const typed = (
    <>
      <ShuntCircuit shunt={`${shunt.value} Ω`} gain={`× ${amplifierGain.value}`} />
      <Group title="Shunt and amplifier">
        <Field form={form} name="shunt" tolerance="shuntTolerance" />
        <Field form={form} name="amplifierGain" tolerance="amplifierGainTolerance" />
        <Field form={form} name="amplifierOffset" />
        <Field form={form} name="amplifierMargin" />
        <p class="hint">
          Without an amplifier: gain 1 ± 0, offset 0, nearest 0. An amplifier of resistors has their
          tolerances added up.
        </p>
      </Group>
      <Group title="The rig">
        <Field form={form} name="largestCurrent" />
      </Group>
      <BoardFields form={form} />
    </>
  );
  if (design === null) return <Panel typed={typed} result={<NothingYet />} />;
  const channel = shuntChannel(design.shunt);
  const said = shuntWords(design);
  const power = powerFact(form, design);
  const result = (
    <>
      <LargestReading channel={channel} />
      <SaidOf said={power === null ? said : { ...said, facts: [...said.facts, power] }} />
      <section class="offers">
        <h2>Shunt in the shops for {amount(design.largest_A, 'A', 2)}</h2>
        <ShuntOffers form={form} design={design} />
      </section>
      <Causes gain={channel.gain} />
      <SketchSettings title="For the top of the sketch" text={builtSettings(channel)} />
    </>
  );
  return <Panel typed={typed} result={result} />;
}

export function MonitorPanel({ form }: PanelProps) {
  const design = parsed(MonitorDesignSchema, form);
  const typed = (
    <>
      <MonitorCircuit shunt={`${form.texts.monitorShunt.value} Ω`} />
      <Group title="Shunt and monitor">
        <Field form={form} name="monitorShunt" tolerance="monitorShuntTolerance" />
        <Field form={form} name="monitorGainTolerance" />
        <div class="field-row">
          <span id="range-label">Range across the shunt</span>
          <span class="choice" role="group" aria-labelledby="range-label">
            {Object.keys(MONITOR_RANGES).map((range) => (
              <button
                type="button"
                key={range}
                aria-pressed={form.monitorRange.value === range}
                onClick={() => (form.monitorRange.value = range)}
              >
                {`±${range} mV`}
              </button>
            ))}
          </span>
        </div>
      </Group>
      <Group title="The rig">
        <Field form={form} name="largestCurrent" />
      </Group>
    </>
  );
  if (design === null) return <Panel typed={typed} result={<NothingYet />} />;
  const current = monitorCurrentChannel(design.monitor);
  const result = (
    <>
      <LargestReading channel={current} />
      <SaidOf said={monitorWords(design)} />
      <Causes gain={current.gain} />
      <SketchSettings
        title="For the top of the sketch"
        text={monitorSettings(design.monitor)}
      />
    </>
  );
  return <Panel typed={typed} result={result} />;
}
