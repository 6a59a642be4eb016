/** The pass that makes a phone an operator: taken up, kept on the phone, lost. */
import { effect, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import { HeldSchema, WhoSchema } from '#core/network.ts';
import { askFor, isRefusal, post, type Beside, type Refusal } from '../feed/requests.ts';
import type { Bench } from '../model/bench.ts';
import { keep, recall } from '../view/kept.ts';

const KEPT_AS = 'pass';

export interface PhonePass {
  /** The name on the pass; null: this phone only watches. */
  readonly name: ReadonlySignal<string | null>;
  /** A secret that came with the address, not taken up yet. */
  readonly offered: Signal<string | null>;
  /** What came of what was done last; null: nothing to say. */
  readonly outcome: Signal<Refusal | 'done' | null>;
  take(given: { secret: string } | { code: string }): Promise<void>;
  giveBack(): Promise<void>;
  /** Who this is, for each request. */
  identity(): Beside;
  /** Hears what came of a request. */
  tell(refusal: Refusal | null): void;
}

export function createPhonePass(bench: Bench): PhonePass {
  let credential = recall(KEPT_AS);
  const name = signal<string | null>(null);
  const outcome = signal<Refusal | 'done' | null>(null);
  const identity = (): Beside =>
    credential === null ? {} : { authorization: `Bearer ${credential}` };
  const hold = (given: string | null, heldBy: string | null): void => {
    credential = given;
    name.value = heldBy;
    keep(KEPT_AS, given);
  };
  const check = async (): Promise<void> => {
    const who = await askFor(WhoSchema, '/api/me', undefined, identity());
    // Without an answer the pass may still be good.
    if (isRefusal(who)) return;
    if (who.role !== 'viewer') name.value = who.name;
    else {
      if (name.value !== null) outcome.value = { code: 'pass-ended', message: '' };
      hold(null, null);
    }
  };
  effect(() => {
    // Asked anew when rights may have changed, and when the program is back.
    const mayDiffer = bench.status.value?.networkChange;
    if (bench.news.value === 'live' && mayDiffer !== undefined && credential !== null) void check();
  });
  return {
    name,
    offered: signal(secretInAddress()),
    outcome,
    identity,
    take: async (given) => {
      const held = await askFor(HeldSchema, '/api/pass', { want: 'take', ...given });
      if (isRefusal(held)) outcome.value = held;
      else {
        hold(held.credential, held.name);
        outcome.value = null;
      }
    },
    giveBack: async () => {
      await post('/api/pass', { want: 'give-back' }, identity());
      hold(null, null);
      outcome.value = null;
    },
    tell: (refusal) => {
      outcome.value = refusal ?? 'done';
      if (refusal?.code === 'pass-ended') hold(null, null);
    },
  };
}

/** Read once and taken out of the address, so that a copied address does not hand it on. */
function secretInAddress(): string | null {
  const secret = /^#pass=([\w-]{1,60})$/.exec(location.hash)?.[1] ?? null;
  if (secret !== null) history.replaceState(null, '', location.pathname);
  return secret;
}
