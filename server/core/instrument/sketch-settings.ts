/**
 * The lines for the settings block at the top of our sketches (firmware-protocol/firmware/), whose
 * channels are in mV and mA.
 */
import { scaled } from '../metrology/format.ts';
import type { WiredChannel, WiredQuantity } from './channel.ts';
import { decimalText, scaleText, uncertaintyText } from './decimal-text.ts';
import type { Calibration } from './meter-comparison.ts';
import { monitorCurrentChannel, monitorVoltageChannel, type Monitor } from './monitor.ts';

const NAMES: Readonly<Record<WiredQuantity, string>> = { voltage: 'VOLTAGE', current: 'CURRENT' };

/** SI to the sketch's mV or mA. */
function milli(value: number): number {
  return scaled(value, -3);
}

function lines(quantity: WiredQuantity, settings: Readonly<Record<string, string>>): string {
  return Object.entries(settings)
    .map(([name, text]) => `#define ${NAMES[quantity]}_${name} "${text}"`)
    .join('\n');
}

/** For a channel as built, before any calibration. */
export function builtSettings(channel: WiredChannel): string {
  return lines(channel.quantity, {
    SCALE: scaleText(milli(channel.scale)),
    GAIN: '1',
    OFFSET: '0',
    GAIN_UNCERTAINTY: uncertaintyText(channel.gain.relative),
    OFFSET_UNCERTAINTY: uncertaintyText(milli(channel.offsetUncertainty)),
  });
}

/** For both channels of a monitor, and the range it is to be set to. */
export function monitorSettings(monitor: Monitor): string {
  return [
    `#define SHUNT_RANGE_MV ${monitor.range_mV}`,
    builtSettings(monitorVoltageChannel(monitor)),
    builtSettings(monitorCurrentChannel(monitor)),
  ].join('\n');
}

/** For a channel after a comparison with a meter; the scale stays as it is. */
export function calibratedSettings(quantity: WiredQuantity, calibration: Calibration): string {
  return lines(quantity, {
    GAIN: decimalText(calibration.gain, 6),
    OFFSET: decimalText(milli(calibration.offset), 4),
    GAIN_UNCERTAINTY: uncertaintyText(calibration.gainUncertainty),
    OFFSET_UNCERTAINTY: uncertaintyText(milli(calibration.offsetUncertainty)),
  });
}
