/** Voltage, current and wind: a strip of the last minute each, its numeral, and what it does. */
import { signal } from '@preact/signals';
import { useSignalEffect } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { NO_VALUE } from '#core/metrology/format.ts';
import { stripAxisOf } from '../draw/strip-axis.ts';
import { extentOf, reduceToColumns } from '../draw/pixel-columns.ts';
import { KINDS, livePlace, unitOf, type Shown } from '../model/quantities.ts';
import { recentLevels } from '../draw/window-buffer.ts';
import { channelReading } from '../model/reading.ts';
import { hasReadings, type Judgement } from '../model/stage.ts';
import { stripWords } from '../model/words.ts';
import { BLEED, createCurveChart, type CurveChart } from './curve-chart.ts';
import { Figure, weightsOf } from './figure.tsx';
import type { PageState } from './page-state.ts';
import { useSize } from './use-size.ts';

type StripQuantity = Exclude<Shown, 'power_W'>;

/** Marker beside the curve, so that channels are told apart without colour. */
const MARKERS: Readonly<Record<StripQuantity, string>> = {
  voltage_V: 'M5 0A5 5 0 0 1 5 10A5 5 0 0 1 5 0Z',
  current_A: 'M.5 .5H9.5V9.5H.5Z',
  windSpeed_mps: 'M5 0L10.4 9.6H-.4Z',
};
const COLOURS: Readonly<Record<StripQuantity, string>> = {
  voltage_V: '--voltage',
  current_A: '--current',
  windSpeed_mps: '--wind',
};
const CHANNELS: readonly StripQuantity[] = ['voltage_V', 'current_A', 'windSpeed_mps'];

export function Strips({ page }: { page: PageState }) {
  return (
    <section class="strips" aria-label={page.words.value.top.field.strips}>
      {CHANNELS.map((quantity) => (
        <Strip key={quantity} page={page} quantity={quantity} />
      ))}
      <p class="span-ends soft" aria-hidden="true">
        <span>{page.words.value.top.field.minuteAgo}</span>
        <span>{page.words.value.top.field.now}</span>
      </p>
    </section>
  );
}

function Strip({ page, quantity }: { page: PageState; quantity: StripQuantity }) {
  const axisHigh = useMemo(() => signal(KINDS[quantity].usual), [quantity]);
  return (
    <div class="strip" data-quantity={quantity}>
      <StripCurve page={page} quantity={quantity} axisHigh={axisHigh} />
      <svg
        class="marker"
        viewBox="-.5 -.5 11 11"
        aria-hidden="true"
        data-colour={COLOURS[quantity]}
      >
        <path d={MARKERS[quantity]} />
      </svg>
      <StripReading page={page} quantity={quantity} axisHigh={axisHigh} />
    </div>
  );
}

interface StripParts {
  readonly page: PageState;
  readonly quantity: StripQuantity;
  /** Top of the strip's own axis, SI unit: says how many digits a live value gets. */
  readonly axisHigh: { value: number };
}

function StripCurve({ page, quantity, axisHigh }: StripParts) {
  const host = useRef<HTMLDivElement>(null);
  const chart = useRef<CurveChart | null>(null);
  const { width, height, rem } = useSize(host);
  useEffect(() => {
    if (host.current === null) return undefined;
    const look = { colour: COLOURS[quantity], moving: 1.5, settled: 3.5, hasFloor: true };
    chart.current = createCurveChart(host.current, look);
    return () => chart.current?.remove();
  }, [quantity, rem]);
  useEffect(() => chart.current?.resize(), [width, height, rem]);
  useSignalEffect(() => {
    const frame = page.drawing.frame.value;
    page.settings.isDark.value;
    const isLive = hasReadings(page.bench.stage.value);
    if (chart.current === null) return;
    const columns = chart.current.columns();
    const data = reduceToColumns(page.bench.buffer, quantity, { ...frame, columns });
    const axis = stripAxisOf(extentOf(data), {
      largest: largestOf(page.bench, quantity),
      usual: KINDS[quantity].usual,
    });
    axisHigh.value = axis.high;
    chart.current.draw({ data, axis, isLive, ...frame });
  });
  return <div class="curve" ref={host} data-bleed={BLEED} aria-hidden="true" />;
}

/** Of the readings that this page has seen and of the trials. */
function largestOf({ most, trials }: PageState['bench'], quantity: StripQuantity): number {
  const values = trials.value.map((trial) => Math.abs(trial[quantity]?.value ?? 0));
  return Math.max(most.value[quantity], ...values);
}

/** What the channel does. Settled is said of all channels together, so each is still then. */
function shownMotion(
  judgement: Judgement | null,
  quantity: StripQuantity,
): Judgement['channels'][number] | undefined {
  const found = judgement?.channels.find(({ channel }) => channel === quantity);
  return found !== undefined && judgement?.phase === 'settled'
    ? { ...found, motion: 'still' }
    : found;
}

function StripReading({ page, quantity, axisHigh }: StripParts) {
  const { bench } = page;
  const prefixes = page.prefixes.value;
  const prefix = prefixes[quantity];
  const stage = bench.stage.value;
  const motion = shownMotion(bench.judgement.value, quantity);
  const newest = bench.trials.value.at(-1);
  const reading = channelReading({
    stage,
    levels: recentLevels(bench.buffer, quantity),
    isStill: motion?.motion === 'still',
    prefix,
    place: livePlace(quantity, { axisHigh: axisHigh.value, prefix, newest }),
  });
  const isLive = hasReadings(stage) && reading.text !== NO_VALUE;
  const words = page.words.value;
  const text = words.number(reading.text);
  const said = isLive ? stripWords(quantity, motion, prefixes, words) : words.motion.noReading;
  return (
    <div class="strip-reading">
      <p class="soft">{words.quantity[quantity]}</p>
      <p class="numeral">
        <Figure text={text} weights={weightsOf(reading.still, 'small')} />
        <span class="sr">{text}</span> <span class="unit">{unitOf(quantity, prefix)}</span>
      </p>
      <p
        class={
          isLive && motion !== undefined && motion.motion !== 'still' ? 'motion moving' : 'motion'
        }
      >
        {said}
      </p>
    </div>
  );
}
