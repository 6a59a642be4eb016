/** What was found of the rig, as the bench page says it. */
import type { Finding } from '#core/rig-check/finding.ts';
import { decimalAt, firstPlace, prefixFor, scaled, UNIT_SPACE } from '#core/metrology/format.ts';
import type { Watched } from '#core/rig-check/seconds.ts';
import type { Catalogue } from '../words/catalogue.ts';

export interface ShownFinding {
  readonly seen: string;
  readonly why: string;
  readonly todo: string;
}

export function shownFinding(finding: Finding, words: Catalogue): ShownFinding {
  const { seen, why, whyOfWind = why, todo } = words.rig.finding[finding.kind];
  const channel = finding.channel as Watched | null;
  const name = channel === null ? '' : words.rig.channel[channel];
  const reason = channel === 'windSpeed_mps' ? whyOfWind : why;
  return { seen: seen(name, valueText(finding, words)), why: reason, todo };
}

/** Two digits: it is an order of magnitude that matters. */
function valueText({ kind, channel, value }: Finding, words: Catalogue): string {
  if (value === null) return '';
  const number = (of: number): string =>
    words.number(of === 0 ? '0' : decimalAt(of, Math.min(firstPlace(of) - 1, 0)));
  const withUnit = (unit: string): string => {
    const { symbol, exponent } = prefixFor(Math.abs(value));
    return `${number(scaled(value, exponent))}${UNIT_SPACE}${symbol}${unit}`;
  };
  switch (kind) {
    case 'beyond-wind':
      return `${number(100 * value)}${UNIT_SPACE}%`;
    case 'wind-changed':
      return `${value < 0 ? '\u2212' : '+'}${number(Math.abs(100 * value))}${UNIT_SPACE}%`;
    case 'needs-flick':
      return `${number(value)}${UNIT_SPACE}s`;
    case 'mains-hum':
      return `${number(value)}${UNIT_SPACE}Hz`;
    case 'wind-past-rotor':
      return `${number(value)}${UNIT_SPACE}m/s`;
    // Of what is missing nothing is read; it is told by what is there.
    case 'no-current':
      return withUnit('V');
    case 'no-voltage':
      return withUnit('A');
    default:
      if (channel === 'windSpeed_mps') return `${number(value)}${UNIT_SPACE}m/s`;
      return withUnit(channel === 'current_A' ? 'A' : 'V');
  }
}
