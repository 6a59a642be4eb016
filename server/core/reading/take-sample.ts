/** From the numbers of a line that fits its layout to a sample. */
import type { Channel, Sample } from '../signal/sample.ts';
import { placeArrival } from './arrival-clock.ts';
import { indicate, isPossible, type ChannelSource } from './channel-source.ts';
import { isCount, LONGEST_STEP, stepsForward } from './counter.ts';
import { placeDeviceTime, type Placement, type Witness } from './device-clock.ts';
import type { Layout } from './layout.ts';
import { learnInterval } from './period.ts';
import { addFault } from './reading.ts';
import { notify, resetPulses, type Reader } from './state.ts';

/** Takes the numbers in `layout.values`, arrived at `at_s`, into `reader.reading`. */
export function takeSample(reader: Reader, layout: Layout, at_s: number): void {
  const { reading, connection } = reader;
  const steps = takeSequence(reader, layout);
  const placement = placeSample(reader, layout, at_s, steps);
  if (placement === 'restarted' || (steps === null && layout.timeAt === null)) {
    reading.restarted = connection.hasSampled;
    resetPulses(layout);
  } else if (steps !== 1) {
    addFault(reading, 'sequenceGap');
    reading.lostLines = steps === null ? 0 : steps - 1;
  }
  if (placement === 'refused') return;
  reading.sample = readSources(reader, layout);
  connection.hasSampled = true;
}

/**
 * How far the sequence number went, 1 also where there is none to go by; null when it does not
 * continue the one before.
 */
function takeSequence({ reading, connection }: Reader, layout: Layout): number | null {
  if (layout.sequenceAt === null) return 1;
  const sequence = layout.values[layout.sequenceAt] as number;
  if (!isCount(sequence)) {
    addFault(reading, Number.isNaN(sequence) ? 'notFinite' : 'outOfRange');
    return 1;
  }
  const previous = connection.sequence;
  connection.sequence = sequence;
  if (previous === null) return 1;
  const steps = stepsForward(previous, sequence);
  return steps === null || steps === 0 || steps > LONGEST_STEP ? null : steps;
}

/** Gives the sample its stream time, `reader.lastTime_s`; `steps` as from `takeSequence`. */
function placeSample(
  reader: Reader,
  layout: Layout,
  at_s: number,
  steps: number | null,
): Placement {
  const { clock, period } = reader;
  const before_s = reader.lastTime_s;
  if (layout.timeAt === null) {
    reader.lastTime_s = placeArrival(reader.connection.arrival, period, at_s, before_s);
    return 'placed';
  }
  const ticks = layout.values[layout.timeAt] as number;
  if (Number.isNaN(ticks) || (ticks < 0 && layout.timeUnit !== 's')) {
    addFault(reader.reading, Number.isNaN(ticks) ? 'notFinite' : 'outOfRange');
    return 'refused';
  }
  const isFirst = !clock.anchored;
  const placement = placeDeviceTime(clock, ticks, at_s, before_s, witnessOf(layout, steps));
  if (placement === 'refused') {
    refuseTime(reader);
    return placement;
  }
  reader.lastTime_s = clock.time_s;
  if (placement === 'placed' && !isFirst)
    learnInterval(period, clock.time_s - before_s, steps ?? 1);
  return placement;
}

function witnessOf({ grammar }: Layout, steps: number | null): Witness {
  if (steps === null) return 'sequence';
  return grammar === 'stillmark' ? 'checksum' : 'none';
}

function refuseTime(reader: Reader): void {
  addFault(reader.reading, 'outOfRange');
  if (reader.clock.mode === 'stream') {
    notify(reader, {
      code: 'time-back',
      message:
        'The time goes back or stands still here: rows are left out until it has caught up. If a new recording begins here, make it a file of its own.',
      about: [],
    });
  }
}

/** The sample at `reader.lastTime_s`; null when every reading is missing. */
function readSources(reader: Reader, { sources, values }: Layout): Sample | null {
  const time_s = reader.lastTime_s;
  const voltage_V = readSource(reader, 'voltage_V', sources, values);
  const current_A = readSource(reader, 'current_A', sources, values);
  const windSpeed_mps = readSource(reader, 'windSpeed_mps', sources, values);
  const rotorSpeed_radps = readSource(reader, 'rotorSpeed_radps', sources, values);
  return voltage_V === null &&
    current_A === null &&
    windSpeed_mps === null &&
    rotorSpeed_radps === null
    ? null
    : { time_s, voltage_V, current_A, windSpeed_mps, rotorSpeed_radps };
}

function readSource(
  { reading, lastTime_s }: Reader,
  channel: Channel,
  sources: Readonly<Record<Channel, ChannelSource | null>>,
  values: Float64Array,
): number | null {
  const source = sources[channel];
  if (source === null) return null;
  const value = values[source.at] as number;
  if (Number.isNaN(value)) {
    addFault(reading, 'notFinite');
    return null;
  }
  const indication = indicate(source, value, lastTime_s);
  if (!isPossible(source, indication)) {
    addFault(reading, 'outOfRange');
    reading.beyond = { channel, value: indication };
    return null;
  }
  return Number.isNaN(indication) ? null : indication;
}
