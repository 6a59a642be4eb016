/** What the bench page says of readings that are keyed in and of tables from elsewhere. */
import type { KeyedFault } from '#core/experiment/keyed-form.ts';
import type { ImportFault } from '#core/experiment/import/fault.ts';

type FaultWords<Fault extends { readonly kind: string }> = {
  readonly [Kind in Fault['kind']]: (fault: Extract<Fault, { kind: Kind }>) => string;
};

export interface ByHandWords {
  readonly keyed: KeyedWords;
  readonly imported: ImportWords;
}

export interface KeyedWords {
  /** What opens it. */
  readonly open: string;
  readonly heading: string;
  /** Said where the session is simulated or replayed: one of its own has to be begun. */
  readonly apart: string;
  readonly begin: string;
  /** How the bench is offered to somebody without a board. */
  readonly offer: string;
  /** Which run the readings are for. */
  readonly forRun: string;
  readonly noRun: string;
  /** The run has a trial already. */
  readonly hasTrial: (trial: number) => string;
  readonly meter: Readonly<Record<'voltage' | 'current' | 'windSpeed', string>>;
  readonly changeMeters: string;
  readonly addWindMeter: string;
  readonly range: string;
  readonly lastDigit: string;
  readonly percent: string;
  readonly counts: string;
  readonly unit: string;
  readonly metersHint: string;
  readonly reading: (place: number) => string;
  readonly addReading: string;
  readonly together: string;
  readonly didNotTurn: string;
  readonly note: string;
  readonly log: string;
  /** The ± of what is typed so far, for one reading and for several. */
  readonly oneReading: string;
  readonly severalReadings: (count: number) => string;
  readonly toMend: (count: number) => string;
  readonly fault: FaultWords<KeyedFault>;
}

export interface ImportWords {
  readonly open: string;
  readonly heading: string;
  readonly hint: string;
  readonly choose: string;
  readonly paste: string;
  readonly columns: string;
  readonly notRead: string;
  readonly heads: Readonly<Record<'line' | 'set' | 'goesTo', string>>;
  readonly noRun: string;
  readonly present: (trial: number) => string;
  readonly struck: string;
  readonly line: (line: number) => string;
  readonly wrong: (count: number) => string;
  readonly understood: (rows: number) => string;
  /** Rows that are in the session already are left out, unless somebody wants them. */
  readonly presentCount: (count: number) => string;
  readonly takeAgain: string;
  /** Followed by a choice of the plan's groups, or of what the table says itself. */
  readonly ofGroup: string;
  readonly asTold: string;
  readonly noUncertainty: string;
  readonly bringIn: (rows: number) => string;
  readonly withoutWrong: (rows: number, wrong: number) => string;
  readonly nothing: string;
  readonly tooLarge: string;
  readonly noSession: string;
  readonly fault: FaultWords<ImportFault>;
}

/** The sentence for a fault: its kind chooses, the rest of it is filled in. */
export function faultWords<Fault extends { readonly kind: string }>(
  words: FaultWords<Fault>,
  fault: Fault,
): string {
  const say = words[fault.kind as Fault['kind']] as (fault: Fault) => string;
  return say(fault);
}
