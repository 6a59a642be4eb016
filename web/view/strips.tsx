/** Voltage, current and wind: a strip of the last minute each, its numeral, and what it does. */
import { computed, signal, useSignalEffect, type ReadonlySignal, type Signal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { NO_VALUE } from '#core/metrology/format.ts';
import type { Axis } from '../draw/axis.ts';
import { stripAxisOf } from '../draw/strip-axis.ts';
import { extentOf, reduceToColumns, type CurveData } from '../draw/pixel-columns.ts';
import { KINDS, livePlace, unitOf, type Shown } from '../model/quantities.ts';
import { recentLevels } from '../draw/window-buffer.ts';
import { channelReading } from '../model/reading.ts';
import { hasReadings, type Judgement } from '../model/stage.ts';
import { stripWords } from '../model/words.ts';
import { BLEED, createCurveChart, type CurveChart } from './curve-chart.ts';
import { Figure, weightsOf } from './figure.tsx';
import type { PageState } from './page-state.ts';
import { SavePicture } from './save-picture.tsx';
import { StripsPicture, type StillStrip } from './strips-picture.tsx';
import { useSize } from './use-size.ts';

type StripQuantity = Exclude<Shown, 'power_W'>;

/** Marker beside the curve, so that channels are told apart without colour. */
const MARKERS: Readonly<Record<StripQuantity, string>> = {
  voltage_V: 'm5 0a5 5 0 0 1 0 10a5 5 0 0 1 0 -10z',
  current_A: 'm.5 .5h9v9h-9z',
  windSpeed_mps: 'm5 0l5.4 9.6h-10.8z',
};
const COLOURS: Readonly<Record<StripQuantity, string>> = {
  voltage_V: '--voltage',
  current_A: '--current',
  windSpeed_mps: '--wind',
};
const CHANNELS: readonly StripQuantity[] = ['voltage_V', 'current_A', 'windSpeed_mps'];

/** The last minute of a channel. */
interface Minute {
  readonly quantity: StripQuantity;
  /** Pixel columns of its curve. */
  readonly columns: Signal<number>;
  readonly data: ReadonlySignal<CurveData>;
  /** The strip's own axis, SI unit. */
  readonly axis: ReadonlySignal<Axis>;
  /** Its top: says how many digits a live value gets. */
  readonly axisHigh: ReadonlySignal<number>;
}

/** The curve is worked out anew with each frame, and with nothing else: what is frozen stays. */
function minuteOf({ bench, drawing }: PageState, quantity: StripQuantity): Minute {
  const columns = signal(200);
  const data = computed(() =>
    reduceToColumns(bench.buffer, quantity, { ...drawing.frame.value, columns: columns.value }),
  );
  const axis = computed(() =>
    stripAxisOf(extentOf(data.value), {
      largest: largestOf(bench, quantity),
      usual: KINDS[quantity].usual,
    }),
  );
  return { quantity, columns, data, axis, axisHigh: computed(() => axis.value.high) };
}

export function Strips({ page }: { page: PageState }) {
  const minutes = useMemo(() => CHANNELS.map((quantity) => minuteOf(page, quantity)), [page]);
  const { field } = page.words.value.top;
  return (
    <section class="strips" aria-label={field.strips}>
      {minutes.map((minute) => (
        <Strip key={minute.quantity} page={page} minute={minute} />
      ))}
      <div class="below-strips">
        <p class="span-ends soft" aria-hidden="true">
          <span>{field.minuteAgo}</span>
          <span>{field.now}</span>
        </p>
        {page.drawing.pausedAt.value !== null && (
          <SavePicture
            words={page.words.value}
            title={field.strips}
            name="channels"
            draw={() => <StripsPicture page={page} strips={minutes.map(stillStrip)} />}
          />
        )}
      </div>
    </section>
  );
}

function stillStrip({ quantity, data, axis }: Minute): StillStrip {
  return { quantity, data: data.value, axis: axis.value, marker: MARKERS[quantity] };
}

interface StripParts {
  readonly page: PageState;
  readonly minute: Minute;
}

function Strip({ page, minute }: StripParts) {
  const { quantity } = minute;
  return (
    <div class="strip" data-quantity={quantity}>
      <StripCurve page={page} minute={minute} />
      <svg
        class="marker"
        viewBox="-.5 -.5 11 11"
        aria-hidden="true"
        data-colour={quantity}
      >
        <path d={`M0 0${MARKERS[quantity]}`} />
      </svg>
      <StripReading page={page} minute={minute} />
    </div>
  );
}

function StripCurve({ page, minute }: StripParts) {
  const { quantity } = minute;
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
    minute.columns.value = chart.current.columns();
    chart.current.draw({ data: minute.data.value, axis: minute.axis.value, isLive, ...frame });
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

function StripReading({ page, minute: { quantity, axisHigh } }: StripParts) {
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
