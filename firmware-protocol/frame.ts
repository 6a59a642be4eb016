/** What can be wrong with a line; counted, shown, never thrown. */
export const FAULT_KINDS = [
  /** Not a line of either grammar. */
  'malformed',
  /** The checksum does not fit. */
  'checksum',
  /** Longer than the guard's limit. */
  'tooLong',
  /** More or fewer fields than columns. */
  'fieldCount',
  /** A field says nan, inf, ovf or nothing: that reading is missing. */
  'notFinite',
  /** A number that its quantity can't have. */
  'outOfRange',
  /** The sequence number jumped: lines were lost on the way. */
  'sequenceGap',
] as const;
export type FaultKind = (typeof FAULT_KINDS)[number];
