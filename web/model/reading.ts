/** The figures on the page: which digits are shown, and which of them stand still. */
import {
  decimalAt,
  expandedUncertainty,
  NO_VALUE,
  placeOf,
  scaled,
  writeMeasured,
  type Prefix,
} from '#core/metrology/format.ts';
import type { TrialView } from '#core/live-messages.ts';
import { stillCharacters } from '../draw/digit-weights.ts';
import { hasReadings, newestQuarter_W, powerLevel_W, type Judgement, type Stage } from './stage.ts';

export interface Reading {
  readonly text: string;
  /** For each character of the text: heavy or hairline. */
  readonly still: readonly boolean[];
  /** Expanded, 95 %; null when none can be given at this stage. */
  readonly uncertainty: string | null;
}

const NONE: Reading = { text: NO_VALUE, still: [false], uncertainty: null };
/** Three dashes in the large figure: no reading comes. */
const NO_POWER: Reading = { text: '–––', still: [false, false, false], uncertainty: null };

export interface PowerAsked {
  readonly stage: Stage;
  readonly judgement: Judgement | null;
  readonly loggedTrial: TrialView | null;
  readonly prefix: Prefix;
  /** Place of the last digit of a live value, in the prefixed unit. */
  readonly place: number;
  /** Recent means of power, oldest first: for when the detector has no slices yet. */
  readonly levels: readonly number[];
}

/** The large figure: the logged result, else the level of power now. */
export function powerReading(asked: PowerAsked): Reading {
  const { stage, judgement, loggedTrial, prefix, place } = asked;
  if (!hasReadings(stage)) return NO_POWER;
  if (stage === 'logged' && loggedTrial?.power_W) {
    const { value, uncertainty } = writeMeasured(loggedTrial.power_W, { unit: 'W', prefix });
    return { text: value, still: [...value].map(() => true), uncertainty };
  }
  if (judgement === null || judgement.threads.length === 0 || judgement.power_W === null) {
    const reading = channelReading({ ...asked, isStill: false });
    return reading === NONE ? NO_POWER : reading;
  }
  if (stage === 'still') return settledReading(judgement.power_W, asked);
  const U =
    stage === 'settling' || stage === 'hold' ? expandedUncertainty(judgement.power_W) : null;
  const spread = U === null ? null : scaled(U, prefix.exponent);
  const shownPlace = spread === null ? place : Math.max(place, placeOf(spread));
  const text = decimalAt(scaled(powerLevel_W(judgement), prefix.exponent), shownPlace);
  const recent = newestQuarter_W(judgement.threads).map((value) => scaled(value, prefix.exponent));
  return {
    text,
    still: stillCharacters(text, recent, { place: shownPlace, settled: false }),
    uncertainty: spread === null ? null : decimalAt(spread, shownPlace),
  };
}

function settledReading(
  estimate: NonNullable<Judgement['power_W']>,
  { prefix, place }: PowerAsked,
): Reading {
  const U = expandedUncertainty(estimate);
  const spread = U === null ? null : scaled(U, prefix.exponent);
  const shownPlace = spread === null ? place : placeOf(spread);
  const text = decimalAt(scaled(estimate.mean, prefix.exponent), shownPlace);
  const uncertainty = spread === null ? null : decimalAt(spread, shownPlace);
  return { text, still: [...text].map(() => true), uncertainty };
}

/** A channel's numeral beside its strip; `levels` are recent means, oldest first. */
export function channelReading(asked: {
  readonly stage: Stage;
  readonly levels: readonly number[];
  readonly isStill: boolean;
  readonly prefix: Prefix;
  readonly place: number;
}): Reading {
  const { stage, levels, isStill, prefix, place } = asked;
  const level = levels.at(-1);
  if (!hasReadings(stage) || level === undefined) return NONE;
  const text = decimalAt(scaled(level, prefix.exponent), place);
  const recent = levels.map((value) => scaled(value, prefix.exponent));
  return {
    text,
    still: stillCharacters(text, recent, { place, settled: isStill }),
    uncertainty: null,
  };
}
