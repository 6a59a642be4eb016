/**
 * Passes for the operator's role. The bench makes one, a phone takes it up once, the bench can take
 * it back. Nothing of it is written down: when the program ends, or the network is closed, all of
 * them are forgotten. Secrets are kept as digests only.
 */
import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import type { Held, Offer, Pass } from '#core/network.ts';

/** An offer that nobody takes up. */
export const OFFER_LASTS_S = 300;
/** Wrong codes after which an offer can be taken up by its secret alone. */
export const CODE_TRIES = 5;
/** Offered and held together. */
export const MOST_PASSES = 6;
const CODE_DIGITS = 6;
/** 128 bits: not to be guessed (NIST SP 800-63B, 5.1.2: look-up secrets of 64 bits and more). */
const SECRET_BYTES = 16;

interface Entry {
  readonly id: number;
  readonly name: string;
  readonly expires_s: number;
  readonly secret: Buffer;
  readonly code: Buffer;
  triesLeft: number;
  /** null while nobody has taken it up. */
  held: { readonly credential: Buffer; readonly address: string } | null;
}

export class Passes {
  readonly #now_s: () => number;
  #entries: Entry[] = [];
  #nextId = 1;

  /** @param now_s a clock that only goes forward */
  constructor(now_s: () => number) {
    this.#now_s = now_s;
  }

  list(): Pass[] {
    return this.#alive().map(({ id, name, held, expires_s }) => ({
      id,
      name,
      state: held === null ? 'offered' : 'held',
      heldBy: held?.address ?? null,
      expiresIn_s: held === null ? expires_s - this.#now_s() : null,
    }));
  }

  /** @returns null when there are as many as there may be */
  offer(name: string): Offer | null {
    if (this.#alive().length >= MOST_PASSES) return null;
    const id = this.#nextId++;
    const secret = newSecret();
    const code = String(randomInt(10 ** CODE_DIGITS)).padStart(CODE_DIGITS, '0');
    this.#entries.push({
      id,
      name,
      expires_s: this.#now_s() + OFFER_LASTS_S,
      secret: digest(secret),
      code: digest(code),
      triesLeft: CODE_TRIES,
      held: null,
    });
    return { id, secret, code };
  }

  takeBack(id: number): void {
    this.#entries = this.#entries.filter((entry) => entry.id !== id);
  }

  forgetAll(): void {
    this.#entries = [];
  }

  /** Takes up the pass with this secret for the device at `address`; null: there is none. */
  takeBySecret(secret: string, address: string): Held | null {
    const wanted = digest(secret);
    const entry = this.#offered().find((one) => timingSafeEqual(one.secret, wanted));
    return entry === undefined ? null : hold(entry, address);
  }

  /** The same with the code that was typed. A wrong one counts against every offer. */
  takeByCode(code: string, address: string): Held | null {
    const wanted = digest(code.replaceAll(/\s/g, ''));
    const open = this.#offered().filter(({ triesLeft }) => triesLeft > 0);
    const entry = open.find((one) => timingSafeEqual(one.code, wanted));
    if (entry !== undefined) return hold(entry, address);
    for (const one of open) one.triesLeft -= 1;
    return null;
  }

  giveBack(credential: string, address: string): void {
    const holder = this.holderOf(credential, address);
    if (holder !== null) this.takeBack(holder.id);
  }

  /**
   * Who operates with this credential. It is good only from the device that took the pass up: one
   * that was overheard is of no use elsewhere.
   */
  holderOf(credential: string, address: string): Pick<Entry, 'id' | 'name'> | null {
    const wanted = digest(credential);
    const entry = this.#entries.find(
      ({ held }) => held?.address === address && timingSafeEqual(held.credential, wanted),
    );
    return entry ?? null;
  }

  #offered(): Entry[] {
    return this.#alive().filter(({ held }) => held === null);
  }

  #alive(): Entry[] {
    const now_s = this.#now_s();
    this.#entries = this.#entries.filter((one) => one.held !== null || one.expires_s > now_s);
    return this.#entries;
  }
}

function hold(entry: Entry, address: string): Held {
  const credential = newSecret();
  entry.held = { credential: digest(credential), address };
  return { name: entry.name, credential };
}

function newSecret(): string {
  return randomBytes(SECRET_BYTES).toString('base64url');
}

function digest(secret: string): Buffer {
  return createHash('sha256').update(secret).digest();
}
