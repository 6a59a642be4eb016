import type { DoorRequest, Held, Network, PassClaim, PassesResponse, PassRequest } from '#core/network.ts';

/** What the HTTP routes need of the room's network. */
export interface NetworkPort {
  view(): Network;
  /** Rejects with `HttpError('door-refused')` when the address can't be opened. */
  door(request: DoorRequest): Promise<Network>;
  /** Throws `HttpError('passes-full')` when there are as many as there may be. */
  pass(request: PassRequest): PassesResponse;
  /**
   * A device at `address` takes up a pass, or gives back the one whose credential it shows. Throws
   * `HttpError('pass-unknown')` when there is no such offer (any more).
   */
  claim(claim: PassClaim, device: { address: string; credential: string | null }): Held | null;
  holderOf(credential: string, address: string): { name: string } | null;
}
