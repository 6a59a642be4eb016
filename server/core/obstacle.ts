/** What stands against something that the operator wants. */
export interface Obstacle {
  /** In a sentence, and what to do. */
  readonly message: string;
  /** For a page that says it in its own language: which obstacle, then its names and numbers. */
  readonly about: readonly string[];
}
