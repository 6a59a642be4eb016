/** A table of trials that is being looked at before it is brought in. */
import { signal, type Signal } from '@preact/signals';

export interface BringingIn {
  readonly isShown: Signal<boolean>;
  readonly text: Signal<string>;
  /** Name of the file; "" for what was pasted. */
  readonly name: Signal<string>;
  /** Rows that are here already are wanted once more. */
  readonly again: Signal<boolean>;
  /** The file that was chosen is no table of trials. */
  readonly isTooLarge: Signal<boolean>;
}

/** A request with a table holds as much. */
export const LONGEST_TABLE = 500_000;

export function createBringingIn(): BringingIn {
  return {
    isShown: signal(false),
    text: signal(''),
    name: signal(''),
    again: signal(false),
    isTooLarge: signal(false),
  };
}

export function putTable(table: BringingIn, text: string, name: string): void {
  const isTooLarge = text.length > LONGEST_TABLE;
  table.text.value = isTooLarge ? '' : text;
  table.name.value = name;
  table.isTooLarge.value = isTooLarge;
  table.again.value = false;
}
