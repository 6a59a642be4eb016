/** A voltage through two resistors. */
import { DividerDesignSchema, type DividerDesign } from '#core/instrument/designs.ts';
import { dividerChannel } from '#core/instrument/divider.ts';
import { preferredDivider, type Series } from '#core/instrument/preferred-values.ts';
import { builtSettings } from '#core/instrument/sketch-settings.ts';
import { DividerCircuit } from './circuits.tsx';
import { Field } from './field.tsx';
import { BoardFields, Group, NothingYet, Offer, Panel, parsed, type PanelProps } from './panel.tsx';
import { Causes, LargestReading, SaidOf, SketchSettings } from './result.tsx';
import { PARTS_HINT, UseHere } from './use-here.tsx';
import { amount, dividerWords, ohms } from './words.ts';

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
      <UseHere
        canBeZeroed
        hint={PARTS_HINT}
        told={(isZeroed) => ({ voltage: { kind: 'divider', isZeroed, divider: design.divider } })}
      />
    </>
  );
  return <Panel typed={typed} result={result} />;
}
