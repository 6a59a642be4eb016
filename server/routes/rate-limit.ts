import { TokenBucket } from '#core/token-bucket.ts';

/** Addresses remembered; when more come, the one unseen for longest is forgotten. */
const MAX_ADDRESSES = 2_000;

/** One token bucket for each remote address, in bounded memory. */
export class RateLimit {
  readonly #limit: { burst: number; perSecond: number };
  readonly #buckets = new Map<string, TokenBucket>();

  constructor(limit: { burst: number; perSecond: number }) {
    this.#limit = limit;
  }

  /** Whether this address may do one more at `at_s`. */
  take(address: string, at_s: number): boolean {
    const bucket = this.#buckets.get(address) ?? new TokenBucket(this.#limit, at_s);
    // A map keeps the order of insertion: putting it back makes it the newest.
    this.#buckets.delete(address);
    this.#buckets.set(address, bucket);
    if (this.#buckets.size > MAX_ADDRESSES) {
      for (const oldest of this.#buckets.keys()) {
        this.#buckets.delete(oldest);
        break;
      }
    }
    return bucket.take(at_s);
  }
}
