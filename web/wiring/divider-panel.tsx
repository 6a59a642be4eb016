/** A voltage through two resistors. */
import { DividerDesignSchema, type DividerDesign } from '#core/instrument/designs.ts';
import { dividerChannel } from '#core/instrument/divider.ts';
import { preferredDivider, type Series } from '#core/instrument/preferred-values.ts';
import { builtSettings } from '#core/instrument/sketch-settings.ts';
import { DividerCircuit } from './circuits.tsx';
import { Field } from './field.tsx';
import { writeField } from './form.ts';
import { BoardFields, Group, NothingYet, Offer, Panel, parsed, type PanelProps } from './panel.tsx';
import { Causes, LargestReading, SaidOf, SketchSettings } from './result.tsx';
import { useSpoken } from './speech.ts';
import { UseHere } from './use-here.tsx';
import { dividerWords } from './words.ts';

const SERIES: readonly Series[] = ['E12', 'E24'];

/** The finer series is worth a line only where it has something else to offer. */
function DividerOffers({ form, design }: PanelProps & { design: DividerDesign }) {
  const { divider, largest_V } = design;
  const { say, amount, ohms } = useSpoken();
  const offers = SERIES.flatMap((series) => {
    const found = preferredDivider(series, largest_V, divider.converter);
    if (found === null) return [];
    const parts = say.offer.over(ohms(found.upper_Ohm), ohms(found.lower_Ohm));
    return [{ series, found, parts }];
  });
  const different = offers.filter(
    ({ parts }, i) => offers.findIndex((one) => one.parts === parts) === i,
  );
  return different.map(({ series, found, parts }) => {
    const { range } = dividerChannel({ ...divider, ...found });
    return (
      <Offer
        key={series}
        words={say.offer.upTo(series, parts, amount(range, 'V'))}
        take={() => {
          writeField(form, 'upper', String(found.upper_Ohm / 1000));
          writeField(form, 'lower', String(found.lower_Ohm / 1000));
        }}
      />
    );
  });
}

export function DividerPanel({ form }: PanelProps) {
  const design = parsed(DividerDesignSchema, form);
  const spoken = useSpoken();
  const { say } = spoken;
  const { upper, lower } = form.texts;
  const typed = (
    <>
      <DividerCircuit upper={`${upper.value} kΩ`} lower={`${lower.value} kΩ`} />
      <Group title={say.form.resistors}>
        <Field form={form} name="upper" tolerance="upperTolerance" />
        <Field form={form} name="lower" tolerance="lowerTolerance" />
      </Group>
      <Group title={say.form.rig}>
        <Field form={form} name="largestVoltage" />
        <Field form={form} name="sourceResistance" />
        <p class="hint">{say.form.rigHint}</p>
      </Group>
      <BoardFields form={form} />
    </>
  );
  if (design === null) return <Panel typed={typed} result={<NothingYet />} />;
  const channel = dividerChannel(design.divider);
  const result = (
    <>
      <LargestReading channel={channel} />
      <SaidOf said={dividerWords(design, spoken)} />
      <section class="offers">
        <h2>{say.offer.resistors(spoken.amount(design.largest_V, 'V', 2))}</h2>
        <DividerOffers form={form} design={design} />
      </section>
      <Causes gain={channel.gain} />
      <SketchSettings text={builtSettings(channel)} />
      <UseHere
        canBeZeroed
        hint={say.use.partsHint}
        told={(isZeroed) => ({ voltage: { kind: 'divider', isZeroed, divider: design.divider } })}
      />
    </>
  );
  return <Panel typed={typed} result={result} />;
}
