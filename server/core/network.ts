/** The room's network and who may do what, as server and pages tell each other. */
import { z } from 'zod';

/**
 * From the least to the most. viewer: any device on the network; operator: a device that was given
 * a pass; bench: the computer that the program runs on.
 */
export const ROLES = ['viewer', 'operator', 'bench'] as const;
export const RoleSchema = z.enum(ROLES);
export type Role = z.infer<typeof RoleSchema>;

/** Answer to `GET /api/me`: what this device may do. */
export const WhoSchema = z.object({
  role: RoleSchema,
  /** The name on the operator's pass. */
  name: z.string().nullable(),
});
export type Who = z.infer<typeof WhoSchema>;

export const ADDRESS_KINDS = ['private', 'self-assigned', 'public'] as const;

/** One address of this computer, and whether it is open to others. */
export const DoorSchema = z.object({
  address: z.string(),
  /** The network card's name, as the system has it. */
  card: z.string(),
  /** private: RFC 1918 and RFC 4193; self-assigned: no network gave it (RFC 3927). */
  kind: z.enum(ADDRESS_KINDS),
  /** An open address that the computer has lost (another network, no network) stays listed. */
  isThere: z.boolean(),
  isOpen: z.boolean(),
  /** Devices that are connected now. */
  devices: z.number().int().nonnegative(),
});
export type Door = z.infer<typeof DoorSchema>;

export const PassSchema = z.object({
  id: z.number().int().positive(),
  name: z.string(),
  /** offered: nobody has taken it yet; held: a phone operates with it. */
  state: z.enum(['offered', 'held']),
  /** Address of the device that took it; null while it is offered. */
  heldBy: z.string().nullable(),
  /** While it is offered. */
  expiresIn_s: z.number().nullable(),
});
export type Pass = z.infer<typeof PassSchema>;

/** Answer to `GET /api/network` and to what changes it. For the bench alone. */
export const NetworkSchema = z.object({
  port: z.number().int(),
  doors: z.array(DoorSchema),
  passes: z.array(PassSchema),
});
export type Network = z.infer<typeof NetworkSchema>;

/** `POST /api/network`: opens or closes one of this computer's addresses. */
export const DoorRequestSchema = z.discriminatedUnion('want', [
  z.strictObject({ want: z.literal('open'), address: z.string().max(60) }),
  z.strictObject({ want: z.literal('close'), address: z.string().max(60) }),
]);
export type DoorRequest = z.infer<typeof DoorRequestSchema>;

export const PASS_NAME_LENGTH = 24;

/** `POST /api/passes`: makes a pass, or takes one back, whether it is offered or held. */
export const PassRequestSchema = z.discriminatedUnion('want', [
  z.strictObject({
    want: z.literal('offer'),
    name: z.string().trim().min(1).max(PASS_NAME_LENGTH),
  }),
  z.strictObject({ want: z.literal('take-back'), id: z.number().int().positive() }),
]);
export type PassRequest = z.infer<typeof PassRequestSchema>;

/** What opens the operator's role, once. Said only when the pass is made, and only at the bench. */
export const OfferSchema = z.object({
  id: z.number().int().positive(),
  /** In the address that the phone's camera reads. */
  secret: z.string(),
  /** To be typed on a phone without one: six digits. */
  code: z.string(),
});
export type Offer = z.infer<typeof OfferSchema>;
export const PassesResponseSchema = NetworkSchema.extend({ offer: OfferSchema.nullable() });
export type PassesResponse = z.infer<typeof PassesResponseSchema>;

/** `POST /api/pass`, from a phone: takes up a pass, or gives it back. */
export const PassClaimSchema = z.union([
  z.strictObject({ want: z.literal('take'), secret: z.string().max(60) }),
  z.strictObject({ want: z.literal('take'), code: z.string().max(12) }),
  z.strictObject({ want: z.literal('give-back') }),
]);
export type PassClaim = z.infer<typeof PassClaimSchema>;

/** Answer to a pass that was taken up; the credential goes with every request from then on. */
export const HeldSchema = z.object({ name: z.string(), credential: z.string() });
export type Held = z.infer<typeof HeldSchema>;
