/** docs/wiring.md against the program: what it quotes, what it works out, and its pictures. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { zeroedOffsetUncertainty, type WiredChannel } from '#core/instrument/channel.ts';
import { pinSourceResistance_Ohm, dividerChannel } from '#core/instrument/divider.ts';
import {
  monitorCurrentChannel,
  monitorVoltageChannel,
  type MonitorRange_mV,
} from '#core/instrument/monitor.ts';
import { shuntChannel, type Shunt } from '#core/instrument/shunt.ts';
import { powerUncertainty } from '#core/instrument/tolerance.ts';
import { amount, percent, UNITS } from '../../../web/wiring/amounts.ts';
import { en } from '../../../web/words/en.ts';

const ROOT = resolve(import.meta.dirname, '../../..');
const DOC = readFileSync(join(ROOT, 'docs/wiring.md'), 'utf8').replaceAll(/\s+/g, ' ');

/** Where what a person reads is written. */
const SPEAKERS = ['web', 'server/core', 'firmware-protocol/firmware'].flatMap((folder) =>
  readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(tsx?|ino)$/.test(entry.name))
    .map((entry) => readFileSync(join(entry.parentPath, entry.name), 'utf8')),
);

/** Instructions are kept line by line. */
const INSTRUCTIONS = Object.values(en.instruction).flatMap((lines) =>
  Array.isArray(lines) ? [lines.join(' ')] : [],
);

const plain = (text: string): string => text.replaceAll('\u202f', ' ');

describe('what the page says', () => {
  const quoted = [...DOC.matchAll(/“([^”]+)”/g)].map(([, words = '']) => words);
  const pressed = [...DOC.matchAll(/\*\*(The board|Take zero)\*\*/g)].map(([, word = '']) => word);

  it('is quoted in the document', () => {
    expect(quoted.length).toBeGreaterThan(9);
    expect(new Set(pressed)).toEqual(new Set(['The board', 'Take zero']));
  });

  it.each([...new Set([...quoted, ...pressed])])('in the program’s own words: %s', (words) => {
    expect([...SPEAKERS, ...INSTRUCTIONS].some((text) => text.includes(words))).toBe(true);
  });

  it('names settings that the sketches have', () => {
    const named = [...DOC.matchAll(/`([A-Z][A-Z_]{5,})`/g)].map(([, name = '']) => name);
    expect(named.length).toBeGreaterThan(0);
    for (const name of named) expect(SPEAKERS.some((text) => text.includes(`#define ${name} `))).toBe(true);
  });
});

const CONVERTER = { reference_V: 5, referenceTolerance: 0.05, bits: 10, partsPerStep: 64 };
const DIVIDER = {
  upper_Ohm: 20e3,
  upperTolerance: 0.01,
  lower_Ohm: 10e3,
  lowerTolerance: 0.01,
  converter: CONVERTER,
};
/** Its gain is 1 + R6/R7, each resistor within 1 %: within 2 % at worst. */
const SHUNT: Shunt = {
  resistance_Ohm: 0.5,
  tolerance: 0.01,
  amplifierGain: 21,
  amplifierGainTolerance: 0.02,
  amplifierOffset_V: 0.0005,
  amplifierMargin_V: 0.02,
  converter: CONVERTER,
};
const monitorAt = (range_mV: MonitorRange_mV) => ({
  shunt_Ohm: 0.1,
  shuntTolerance: 0.01,
  range_mV,
  gainTolerance: 0.005,
});

describe('what the parts of the document read', () => {
  const row = (channel: WiredChannel): string => {
    const unit = UNITS[channel.quantity];
    const built = amount(channel.offsetUncertainty, unit, 2);
    const zeroed = amount(zeroedOffsetUncertainty(channel), unit, 2);
    return plain(
      `| ${channel.quantity} | ${amount(channel.range, unit)} | ${amount(channel.step, unit)} | ${percent(channel.gain.relative)} | ${built}, zeroed ${zeroed} |`,
    );
  };

  it('stands in its table', () => {
    expect(DOC).toContain(row(dividerChannel(DIVIDER)));
    expect(DOC).toContain(row(shuntChannel(SHUNT)));
  });

  it('and so do the monitor’s ranges', () => {
    for (const [range, zero] of [
      [40, '±1 mA'],
      [320, '±2 mA'],
    ] as const) {
      const { range: reach, step, offsetCauses } = monitorCurrentChannel(monitorAt(range));
      expect(plain(`±${amount(offsetCauses[0]?.limit ?? 0, 'A', 1)}`)).toBe(zero);
      const words = `| ±${range} mV | ${amount(reach, 'A')} | ${amount(step, 'A')} | ${zero} |`;
      expect(DOC).toContain(plain(words));
    }
  });

  it('and the figures in the text', () => {
    const voltage = dividerChannel(DIVIDER).gain;
    const power = powerUncertainty(voltage, shuntChannel(SHUNT).gain);
    expect(plain(percent(voltage.relative))).toBe('2.9 %');
    expect(plain(percent(power))).toBe('5.9 %');
    expect(DOC).toContain('| 3 %, power 6 %:');
    expect(DOC).toContain(`sees ${plain(amount(pinSourceResistance_Ohm(DIVIDER), 'Ω', 2))}`);
    expect(plain(percent(monitorVoltageChannel(monitorAt(40)).gain.relative))).toBe('0.29 %');
    expect(plain(percent(monitorCurrentChannel(monitorAt(40)).gain.relative))).toBe('0.65 %');
    const bare = shuntChannel({
      ...SHUNT,
      resistance_Ohm: 2.2,
      amplifierGain: 1,
      amplifierMargin_V: 0,
    });
    expect(DOC).toContain(
      plain(`up to ${amount(bare.range, 'A')} in steps of ${amount(bare.step, 'A')}`),
    );
  });
});

describe('its pictures', () => {
  const pictures = [...DOC.matchAll(/!\[([^\]]+)\]\((pictures\/[\w-]+\.svg)\)/g)];

  it('are there: two circuits, the sensors, two meters', () => {
    expect(pictures).toHaveLength(4);
  });

  it.each(pictures.map(([, words = '', path = '']) => ({ words, path })))(
    '$path can be read without being seen, in light and dark, and is whole',
    ({ words, path }) => {
      const svg = readFileSync(join(ROOT, 'docs', path), 'utf8');
      expect(words.length).toBeGreaterThan(20);
      expect(svg).toMatch(/<title id="[\w-]+">[^<]{10,}<\/title>/);
      expect(svg).toMatch(/<desc id="[\w-]+">[^<]{80,}<\/desc>/);
      expect(svg).toContain('prefers-color-scheme: dark');
      expect(svg).not.toMatch(/https?:\/\/(?!www\.w3\.org\/2000\/svg)|<script|<image/);
      const defined = new Set([...svg.matchAll(/\bid="([\w-]+)"/g)].map(([, id]) => id));
      const used = [...svg.matchAll(/href="#([\w-]+)"/g)].map(([, id]) => id);
      expect(used.filter((id) => !defined.has(id))).toEqual([]);
    },
  );

  it('name every part that the table of parts names', () => {
    const svg = readFileSync(join(ROOT, 'docs/pictures/wiring-divider-shunt.svg'), 'utf8');
    for (const part of ['D1', 'D2', 'D3', 'R1', 'R2', 'R3', 'R4', 'R5', 'R6', 'R7', 'C1', 'C2', 'C3']) {
      expect(svg, part).toContain(part);
      expect(DOC, part).toContain(part);
    }
  });
});
