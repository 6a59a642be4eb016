/** What the wiring page says of a design, in plain words and numbers no finer than they deserve. */
import { SOURCE_LIMIT_OHM } from '#core/instrument/converter.ts';
import { zeroedOffsetUncertainty, type WiredChannel } from '#core/instrument/channel.ts';
import { decimalText } from '#core/instrument/decimal-text.ts';
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
import { decimalAt, firstPlace, prefixFor, scaled, UNIT_SPACE } from '#core/metrology/format.ts';

/** To three digits, with a prefix: "14.6 mV". */
export function amount(value: number, unit: string, digits = 3): string {
  if (value === 0) return `0${UNIT_SPACE}${unit}`;
  const rounded = Number(value.toPrecision(digits));
  const { exponent, symbol } = prefixFor(rounded);
  const number = scaled(rounded, exponent);
  return `${decimalAt(number, firstPlace(number) - digits + 1)}${UNIT_SPACE}${symbol}${unit}`;
}

/** As resistors are spoken of: "0.82 Ω", "20 kΩ". */
export function ohms(resistance_Ohm: number): string {
  if (resistance_Ohm >= 1) return amount(resistance_Ohm, 'Ω', 2);
  return `${decimalText(resistance_Ohm, 3)}${UNIT_SPACE}Ω`;
}

/** Two digits: "2.9 %". */
export function percent(fraction: number): string {
  if (fraction === 0) return `0${UNIT_SPACE}%`;
  const number = Number((fraction * 100).toPrecision(2));
  return `${decimalAt(number, Math.min(firstPlace(number) - 1, 0))}${UNIT_SPACE}%`;
}

export const UNITS = { voltage: 'V', current: 'A' } as const;

export interface Said {
  /** In large type: what it reads and how well. */
  readonly sentence: string;
  /** Further facts, one line each. */
  readonly facts: readonly string[];
  /** What must be changed before it is built or used. */
  readonly warnings: readonly string[];
}

function readingSentence(channel: WiredChannel): string {
  const unit = UNITS[channel.quantity];
  const reach = `Reads up to ${amount(channel.range, unit)} in steps of ${amount(channel.step, unit)}.`;
  const share = percent(channel.gain.relative);
  return `${reach} The parts make every reading uncertain by ${share}, the same share each time.`;
}

/** Where most of the gain's uncertainty comes from, and what helps. */
function gainFact({ relative, causes }: GainUncertainty): string {
  const worst = causes.reduce((a, b) => (contribution(b) > contribution(a) ? b : a));
  if (relative === 0) return 'No tolerance was given, so this shows no uncertainty of the parts.';
  const shared = worst.shared ? ', which voltage and current share' : '';
  return `Most of that comes from the ${worst.name}${shared}. A check against a multimeter takes its place.`;
}

function zeroFact(channel: WiredChannel): string {
  const unit = UNITS[channel.quantity];
  const built = amount(channel.offsetUncertainty, unit, 2);
  const zeroed = amount(zeroedOffsetUncertainty(channel), unit, 2);
  return `Its zero is uncertain by ${built} as built, by ${zeroed} once zeroed with the fan off.`;
}

export function dividerWords({ divider, largest_V, sourceResistance_Ohm }: DividerDesign): Said {
  const channel = dividerChannel(divider);
  const source_Ohm = pinSourceResistance_Ohm(divider);
  const load = dividerLoad(divider, { voltage_V: largest_V, resistance_Ohm: sourceResistance_Ohm });
  const clamp_A = clampCurrent_A(divider, largest_V);
  return {
    sentence: readingSentence(channel),
    facts: [
      gainFact(channel.gain),
      zeroFact(channel),
      `The pin sees ${ohms(source_Ohm)}. Converters of 8-bit boards want 10${UNIT_SPACE}kΩ or less.`,
      `At ${amount(largest_V, 'V', 2)} it takes ${amount(load.current_A, 'A', 2)} from the generator, which lowers its voltage by ${percent(load.loweredBy)}; the resistors turn ${amount(load.upperPower_W + load.lowerPower_W, 'W', 2)} into heat.`,
      `With the generator the wrong way round, or too fast, the clamping diodes at the pin carry up to ${amount(clamp_A, 'A', 2)}.`,
    ],
    warnings: [
      ...rangeWarning(channel, largest_V, 'Take a larger upper resistor, or a smaller lower one.'),
      ...(source_Ohm > SOURCE_LIMIT_OHM
        ? [
            `The pin sees ${ohms(source_Ohm)}: too much. The converter would still be filling up from the other channel. Take smaller resistors of the same ratio.`,
          ]
        : []),
      ...(clamp_A > 5e-3
        ? [
            `The clamping diodes might have to carry ${amount(clamp_A, 'A', 2)}. Take a larger upper resistor, so that it stays below 5${UNIT_SPACE}mA.`,
          ]
        : []),
    ],
  };
}

function rangeWarning(channel: WiredChannel, largest: number, remedy: string): string[] {
  if (largest <= channel.range) return [];
  const unit = UNITS[channel.quantity];
  return [
    `Too small: it ends at ${amount(channel.range, unit)}, and you expect ${amount(largest, unit)}. ${remedy}`,
  ];
}

/** A resistor at half of its rated power stays cool enough to keep its value (common practice). */
const RATING_FACTOR = 2;

function shuntFact(resistance_Ohm: number, largest_A: number): string {
  const { voltage_V, power_W } = burden(resistance_Ohm, largest_A);
  return `At ${amount(largest_A, 'A', 2)} the shunt takes ${amount(voltage_V, 'V', 2)} from the circuit and turns ${amount(power_W, 'W', 2)} into heat: take one rated ${amount(RATING_FACTOR * power_W, 'W', 2)} or more.`;
}

export function shuntWords({ shunt, largest_A }: ShuntDesign): Said {
  const channel = shuntChannel(shunt);
  return {
    sentence: readingSentence(channel),
    facts: [
      gainFact(channel.gain),
      zeroFact(channel),
      shuntFact(shunt.resistance_Ohm, largest_A),
      ...(channel.floor > 0
        ? [
            `Below ${amount(channel.floor, 'A', 2)} the amplifier’s output can’t follow: such currents read wrong, and a zero taken there hides an offset.`,
          ]
        : []),
    ],
    warnings: rangeWarning(channel, largest_A, 'Take a smaller shunt, or less gain.'),
  };
}

export function monitorWords({ monitor, largest_A }: MonitorDesign): Said {
  const current = monitorCurrentChannel(monitor);
  const voltage = monitorVoltageChannel(monitor);
  return {
    sentence: readingSentence(current),
    facts: [
      `Voltage: up to ${amount(BUS_LIMIT_V, 'V', 2)} in steps of ${amount(voltage.step, 'V')}, uncertain by ${percent(voltage.gain.relative)}.`,
      gainFact(current.gain),
      zeroFact(current),
      shuntFact(monitor.shunt_Ohm, largest_A),
      `No pin of it may see less than −0.3${UNIT_SPACE}V or more than ${BUS_LIMIT_V}${UNIT_SPACE}V, not for a moment: check the generator’s polarity first.`,
    ],
    warnings: rangeWarning(current, largest_A, 'Choose a wider range, or take a smaller shunt.'),
  };
}
