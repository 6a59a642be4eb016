/** What the wiring page says of a design: its sentence, facts and warnings. */
import { SOURCE_LIMIT_OHM } from '#core/instrument/converter.ts';
import { zeroedOffsetUncertainty, type WiredChannel } from '#core/instrument/channel.ts';
import type { DividerDesign, MonitorDesign, ShuntDesign } from '#core/instrument/designs.ts';
import {
  clampCurrent_A,
  dividerChannel,
  dividerLoad,
  pinSourceResistance_Ohm,
} from '#core/instrument/divider.ts';
import {
  monitorCurrentChannel,
  monitorVoltageChannel,
  BUS_LIMIT_V,
} from '#core/instrument/monitor.ts';
import { burden, shuntChannel } from '#core/instrument/shunt.ts';
import { contribution, type GainUncertainty } from '#core/instrument/tolerance.ts';
import { UNITS } from './amounts.ts';
import type { Spoken } from './speech.ts';

export interface Said {
  /** In large type: what it reads and how well. */
  readonly sentence: string;
  /** Further facts, one line each. */
  readonly facts: readonly string[];
  /** What must be changed before it is built or used. */
  readonly warnings: readonly string[];
}

function readingSentence(channel: WiredChannel, { say, amount, percent }: Spoken): string {
  const unit = UNITS[channel.quantity];
  const share = percent(channel.gain.relative);
  return say.said.reads(amount(channel.range, unit), amount(channel.step, unit), share);
}

/** Where most of the gain's uncertainty comes from, and what helps. */
function gainFact({ relative, causes }: GainUncertainty, { say, words }: Spoken): string {
  const worst = causes.reduce((a, b) => (contribution(b) > contribution(a) ? b : a));
  if (relative === 0) return say.said.noTolerance;
  return say.said.mostFrom(words.budget.cause[worst.name], worst.shared);
}

function zeroFact(channel: WiredChannel, { say, amount }: Spoken): string {
  const unit = UNITS[channel.quantity];
  return say.said.zero(
    amount(channel.offsetUncertainty, unit, 2),
    amount(zeroedOffsetUncertainty(channel), unit, 2),
  );
}

/** The clamping diodes of common pins bear this much for long (common practice, no source). */
const CLAMP_LIMIT_A = 5e-3;

export function dividerWords(design: DividerDesign, spoken: Spoken): Said {
  const { divider, largest_V, sourceResistance_Ohm } = design;
  const { say, amount, ohms, percent } = spoken;
  const channel = dividerChannel(divider);
  const source_Ohm = pinSourceResistance_Ohm(divider);
  const load = dividerLoad(divider, { voltage_V: largest_V, resistance_Ohm: sourceResistance_Ohm });
  const heat_W = load.upperPower_W + load.lowerPower_W;
  const clamp_A = clampCurrent_A(divider, largest_V);
  const clamp = amount(clamp_A, 'A', 2);
  return {
    sentence: readingSentence(channel, spoken),
    facts: [
      gainFact(channel.gain, spoken),
      zeroFact(channel, spoken),
      say.said.pinSees(ohms(source_Ohm)),
      say.said.load(
        amount(largest_V, 'V', 2),
        amount(load.current_A, 'A', 2),
        percent(load.loweredBy),
        amount(heat_W, 'W', 2),
      ),
      say.said.clamps(clamp),
    ],
    warnings: [
      ...rangeWarning(channel, largest_V, 'divider', spoken),
      ...(source_Ohm > SOURCE_LIMIT_OHM ? [say.said.pinSeesTooMuch(ohms(source_Ohm))] : []),
      ...(clamp_A > CLAMP_LIMIT_A ? [say.said.clampsTooMuch(clamp)] : []),
    ],
  };
}

function rangeWarning(
  channel: WiredChannel,
  largest: number,
  by: keyof Spoken['say']['said']['remedy'],
  { say, amount }: Spoken,
): string[] {
  if (largest <= channel.range) return [];
  const unit = UNITS[channel.quantity];
  const fault = say.said.tooSmall(amount(channel.range, unit), amount(largest, unit));
  return [`${fault} ${say.said.remedy[by]}`];
}

/** A resistor at half of its rated power stays cool enough to keep its value (common practice). */
const RATING_FACTOR = 2;

function shuntFact(resistance_Ohm: number, largest_A: number, { say, amount }: Spoken): string {
  const { voltage_V, power_W } = burden(resistance_Ohm, largest_A);
  return say.said.shunt(
    amount(largest_A, 'A', 2),
    amount(voltage_V, 'V', 2),
    amount(power_W, 'W', 2),
    amount(RATING_FACTOR * power_W, 'W', 2),
  );
}

export function shuntWords({ shunt, largest_A }: ShuntDesign, spoken: Spoken): Said {
  const channel = shuntChannel(shunt);
  const floor = spoken.say.said.floor(spoken.amount(channel.floor, 'A', 2));
  return {
    sentence: readingSentence(channel, spoken),
    facts: [
      gainFact(channel.gain, spoken),
      zeroFact(channel, spoken),
      shuntFact(shunt.resistance_Ohm, largest_A, spoken),
      ...(channel.floor > 0 ? [floor] : []),
    ],
    warnings: rangeWarning(channel, largest_A, 'shunt', spoken),
  };
}

export function monitorWords({ monitor, largest_A }: MonitorDesign, spoken: Spoken): Said {
  const { say, amount, percent } = spoken;
  const current = monitorCurrentChannel(monitor);
  const voltage = monitorVoltageChannel(monitor);
  const limit = amount(BUS_LIMIT_V, 'V', 2);
  return {
    sentence: readingSentence(current, spoken),
    facts: [
      say.said.busVoltage(limit, amount(voltage.step, 'V'), percent(voltage.gain.relative)),
      gainFact(current.gain, spoken),
      zeroFact(current, spoken),
      shuntFact(monitor.shunt_Ohm, largest_A, spoken),
      say.said.monitorPins(limit),
    ],
    warnings: rangeWarning(current, largest_A, 'monitor', spoken),
  };
}
