/** Something to be said at one field of a form: what is wrong there, and what to do. */
export interface Remark {
  /** Path to the field, for instance "factors.0.levels.2". */
  readonly field: string;
  readonly message: string;
}
