/**
 * A child process that plays a board on its standard output, in real time: rotor lag, turbulence,
 * and what goes wrong on the way. Its only argument is the score as JSON (board-score.ts).
 */
import type { Frame } from '#protocol/frame.ts';
import { formatFrame } from '#protocol/stillmark-line.ts';
import { createRandom, normal } from '#core/virtual-rig/random.ts';
import { LOAD_OHM, ScoreSchema, WIND_MPS, type PlayedScore } from './board-score.ts';

const LAG_S = 0.5;
const VOLTAGE_STEP_V = 0.001;
const CURRENT_STEP_A = 0.0001;
const WIND_STEP_MPS = 0.01;

async function play(score: PlayedScore): Promise<void> {
  const random = createRandom(score.seed);
  const period_ms = 1000 / score.rate_Hz;
  const started_ms = performance.now();
  let number = 0;
  let voltage_V = 0;
  const announce = (): void => {
    if (score.grammar === 'plain') process.stdout.write('time_ms,voltage_V,current_mA,wind_mps\r\n');
    if (score.grammar === 'stillmark') for (const frame of announcement()) send(frame);
  };
  const sample = (target_V: number): void => {
    voltage_V += (target_V - voltage_V) * (1 - Math.exp(-period_ms / 1000 / LAG_S));
    const measured_V = voltage_V * (1 + 0.004 * normal(random)) + 0.0005 * normal(random);
    const wind_mps = target_V > 0 ? WIND_MPS * (1 + 0.01 * normal(random)) : 0;
    if (score.grammar === 'stillmark') {
      send({
        kind: 'sample',
        sequence: number % 2 ** 16,
        time: Math.round(number * period_ms * 1000) % 2 ** 32,
        counts: [
          Math.round(measured_V / VOLTAGE_STEP_V),
          Math.round(measured_V / LOAD_OHM / CURRENT_STEP_A),
          Math.round(wind_mps / WIND_STEP_MPS),
        ],
      });
    } else {
      const current_mA = (1000 * measured_V) / LOAD_OHM;
      const time_ms = Math.round(number * period_ms);
      process.stdout.write(
        `${time_ms},${measured_V.toFixed(3)},${current_mA.toFixed(1)},${wind_mps.toFixed(2)}\r\n`,
      );
    }
  };
  const pace = async (): Promise<void> => {
    number += 1;
    const wait_ms = started_ms + number * period_ms - performance.now();
    if (wait_ms > 0) await new Promise((resolve) => setTimeout(resolve, wait_ms));
  };
  announce();
  for (const part of score.parts) {
    switch (part.do) {
      case 'level':
        for (let count = part.length_s * score.rate_Hz; count > 0; count -= 1) {
          sample(part.voltage_V);
          await pace();
        }
        break;
      case 'bytes':
        process.stdout.write(Buffer.from(part.text, 'latin1'));
        break;
      case 'lose':
        number += part.count;
        break;
      case 'silence':
        number += Math.round(part.length_s * score.rate_Hz);
        await new Promise((resolve) => setTimeout(resolve, part.length_s * 1000));
        break;
    }
  }
}

function send(frame: Frame): void {
  process.stdout.write(`${formatFrame(frame)}\r\n`);
}

function announcement(): Frame[] {
  const channel = (number: number, quantity: string, unit: string, scale: number): Frame => ({
    kind: 'channel',
    number,
    quantity,
    unit,
    scale,
    zero: 0,
    gain: 1,
    offset: 0,
    gainUncertainty: null,
    offsetUncertainty: null,
  });
  return [
    { kind: 'opening', cause: 'boot', timeUnit: 'us', channelCount: 3 },
    { kind: 'identity', maker: 'Stillmark', model: 'played board', serial: '7', firmware: '1' },
    channel(1, 'voltage', 'V', VOLTAGE_STEP_V),
    channel(2, 'current', 'A', CURRENT_STEP_A),
    channel(3, 'wind', 'mps', WIND_STEP_MPS),
  ];
}

await play(ScoreSchema.parse(JSON.parse(process.argv[2] ?? '')));
