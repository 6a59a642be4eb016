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
import { writeField, type Form } from './form.ts';
import { BoardFields, Group, NothingYet, Offer, Panel, parsed, type PanelProps } from './panel.tsx';
import { Causes, LargestReading, SaidOf, SketchSettings } from './result.tsx';
import { useSpoken, type Spoken } from './speech.ts';
import { UseHere } from './use-here.tsx';
import { shuntWords } from './words.ts';

function ShuntOffers({ form, design }: PanelProps & { design: ShuntDesign }) {
  const { shunt, largest_A } = design;
  const { say, amount, ohms } = useSpoken();
  const highest_V = shunt.converter.reference_V - shunt.amplifierMargin_V;
  const most_Ohm = highest_V / shunt.amplifierGain / largest_A;
  const found_Ohm = preferredAtMost('E12', most_Ohm);
  const { range } = shuntChannel({ ...shunt, resistance_Ohm: found_Ohm });
  return (
    <Offer
      words={say.offer.upTo('E12', ohms(found_Ohm), amount(range, 'A'))}
      take={() => writeField(form, 'shunt', String(found_Ohm))}
    />
  );
}

/** What both channels of the board mean for power, when the divider's form holds too. */
function powerFact(form: Form, shunt: ShuntDesign, { say, percent }: Spoken): string | null {
  const divider = parsed(DividerDesignSchema, form);
  if (divider === null) return null;
  const voltage = dividerChannel(divider.divider).gain;
  const together = powerUncertainty(voltage, shuntChannel(shunt.shunt).gain);
  return say.said.power(percent(together));
}

export function ShuntPanel({ form }: PanelProps) {
  const design = parsed(ShuntDesignSchema, form);
  const spoken = useSpoken();
  const { say } = spoken;
  const { shunt, amplifierGain } = form.texts;
  const typed = (
    <>
      <ShuntCircuit shunt={`${shunt.value} Ω`} gain={`× ${amplifierGain.value}`} />
      <Group title={say.form.shunt}>
        <Field form={form} name="shunt" tolerance="shuntTolerance" />
        <Field form={form} name="amplifierGain" tolerance="amplifierGainTolerance" />
        <Field form={form} name="amplifierOffset" />
        <Field form={form} name="amplifierMargin" />
        <p class="hint">{say.form.shuntHint}</p>
      </Group>
      <Group title={say.form.rig}>
        <Field form={form} name="largestCurrent" />
      </Group>
      <BoardFields form={form} />
    </>
  );
  if (design === null) return <Panel typed={typed} result={<NothingYet />} />;
  const channel = shuntChannel(design.shunt);
  const said = shuntWords(design, spoken);
  const power = powerFact(form, design, spoken);
  const result = (
    <>
      <LargestReading channel={channel} />
      <SaidOf said={power === null ? said : { ...said, facts: [...said.facts, power] }} />
      <section class="offers">
        <h2>{say.offer.shunt(spoken.amount(design.largest_A, 'A', 2))}</h2>
        <ShuntOffers form={form} design={design} />
      </section>
      <Causes gain={channel.gain} />
      <SketchSettings text={builtSettings(channel)} />
      <UseHere
        canBeZeroed
        hint={say.use.partsHint}
        told={(isZeroed) => ({ current: { kind: 'shunt', isZeroed, shunt: design.shunt } })}
      />
    </>
  );
  return <Panel typed={typed} result={result} />;
}
