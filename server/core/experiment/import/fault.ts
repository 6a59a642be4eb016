/** What is wrong with a table of trials, or a row of it: for a page to say in its own language. */

export type ImportFault =
  | TableFault
  | RowFault
  /** A quantity that is known, without a unit: the column is not read. */
  | { readonly kind: 'unit-missing'; readonly column: string; readonly wanted: readonly string[] };

type TableFault =
  | { readonly kind: 'table-empty' }
  | { readonly kind: 'not-text' }
  | { readonly kind: 'row-endless' }
  | { readonly kind: 'too-many-rows'; readonly most: number }
  | { readonly kind: 'column-twice'; readonly column: string }
  | { readonly kind: 'columns-alike'; readonly first: string; readonly second: string }
  | { readonly kind: 'names-missing' }
  | { readonly kind: 'no-power' }
  | { readonly kind: 'no-factor' };

type RowFault =
  | { readonly kind: 'field-count'; readonly fields: number; readonly columns: number }
  | { readonly kind: 'cell-empty'; readonly column: string }
  | {
      readonly kind: 'level-unknown';
      readonly column: string;
      readonly text: string;
      readonly levels: readonly string[];
    }
  | { readonly kind: 'too-long'; readonly column: string; readonly most: number }
  /** A comma where numbers have a point, or a point where they have a comma. */
  | { readonly kind: 'other-sign'; readonly column: string; readonly text: string; readonly sign: '.' | ',' }
  | { readonly kind: 'no-number'; readonly column: string; readonly text: string }
  | { readonly kind: 'below-zero'; readonly column: string }
  | { readonly kind: 'not-possible'; readonly column: string; readonly text: string }
  | { readonly kind: 'value-missing'; readonly quantity: 'voltage_V' | 'current_A' }
  | { readonly kind: 'power-disagrees'; readonly stated: string; readonly product: string }
  /** A simulated row was not measured. */
  | { readonly kind: 'simulated' }
  | { readonly kind: 'neither-yes-nor-no'; readonly column: string; readonly text: string };

/** Thrown with what is wrong with one row. */
export class RowUnreadable extends Error {
  readonly fault: RowFault;

  constructor(fault: RowFault) {
    super(fault.kind);
    this.fault = fault;
  }
}
