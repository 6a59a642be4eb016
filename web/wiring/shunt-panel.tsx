/** A current through a shunt with an amplifier. */
import {
  DividerDesignSchema,
  ShuntDesignSchema,
  type ShuntDesign,
} from '#core/instrument/designs.ts';
import { dividerChannel } from '#core/instrument/divider.ts';
import { preferredAtMost } from '#core/instrument/preferred-values.ts';
import { shuntChannel } from '#core/instrument/shunt.ts';
import { builtSettings } from '#core/instrument/sketch-settings.ts';
import { powerUncertainty } from '#core/instrument/tolerance.ts';
import { ShuntCircuit } from './circuits.tsx';
import { Field } from './field.tsx';
import type { Form } from './form.ts';
import { BoardFields, Group, NothingYet, Offer, Panel, parsed, type PanelProps } from './panel.tsx';
import { Causes, LargestReading, SaidOf, SketchSettings } from './result.tsx';
import { PARTS_HINT, UseHere } from './use-here.tsx';
import { amount, ohms, percent, shuntWords } from './words.ts';

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
      <UseHere
        canBeZeroed
        hint={PARTS_HINT}
        told={(isZeroed) => ({ current: { kind: 'shunt', isZeroed, shunt: design.shunt } })}
      />
    </>
  );
  return <Panel typed={typed} result={result} />;
}
