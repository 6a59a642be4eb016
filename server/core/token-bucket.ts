/**
 * Allows `burst` takes at once and `perSecond` on average (a token bucket).
 * Time is data: seconds on any clock that does not run backwards.
 */
export class TokenBucket {
  readonly #burst: number;
  readonly #perSecond: number;
  #tokens: number;
  #at_s: number;

  constructor(limit: { burst: number; perSecond: number }, at_s: number) {
    this.#burst = limit.burst;
    this.#perSecond = limit.perSecond;
    this.#tokens = limit.burst;
    this.#at_s = at_s;
  }

  /** Whether one more is allowed at `at_s`; if so it is counted. */
  take(at_s: number): boolean {
    const refill = (at_s - this.#at_s) * this.#perSecond;
    this.#tokens = Math.min(this.#burst, this.#tokens + refill);
    this.#at_s = at_s;
    if (this.#tokens < 1) return false;
    this.#tokens -= 1;
    return true;
  }
}
