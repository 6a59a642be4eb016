/** From what the operating system says of its ports to boards with plain names. */
import type { Board } from '#core/link.ts';

/** One port as the operating system describes it; everything but the path may be unknown. */
export interface PortFacts {
  readonly path: string;
  readonly vendorId?: string | undefined;
  readonly productId?: string | undefined;
  readonly serialNumber?: string | undefined;
  /** Which socket it is plugged into. */
  readonly location?: string | undefined;
  /** What the device calls itself. */
  readonly product?: string | undefined;
  readonly maker?: string | undefined;
}

/** USB vendors whose products are converters from USB to a serial line rather than boards. */
const ADAPTER_VENDORS = new Set(['0403', '067b', '10c4', '1a86']);

/** Longest name a device may give itself here. */
const OWN_NAME_LIMIT = 60;

/** Boards in the order of their paths, with names and identities that are unique among them. */
export function toBoards(ports: readonly PortFacts[]): Board[] {
  const boards = ports.map(toBoard);
  const sorted = boards.sort((a, b) => comparePaths(a.path, b.path));
  return withUniqueNames(withUniqueIds(sorted));
}

/** A board for a path given by hand that the system lists nothing about. */
export function boardAtPath(path: string): Board {
  return toBoard({ path });
}

/** The same device in the same socket under the same path: it has not been away. */
export function isSameAttachment(a: Board, b: Board): boolean {
  const isSamePlace = a.path === b.path && a.location === b.location;
  return isSamePlace && isSameKind(a, b) && a.serialNumber === b.serialNumber;
}

/** Same vendor and product, and known to be so. */
export function isSameKind(a: Board, b: Board): boolean {
  return a.vendorId !== null && a.vendorId === b.vendorId && a.productId === b.productId;
}

/** Plugged into USB. Only these are offered: a built-in or Bluetooth port may be anything. */
export function isUsb(board: Board): boolean {
  return board.vendorId !== null;
}

function toBoard(facts: PortFacts): Board {
  const vendorId = facts.vendorId?.toLowerCase() ?? null;
  const productId = facts.productId?.toLowerCase() ?? null;
  // A number with & in it was made up by the system from the socket: it says where, not which.
  const invented = facts.serialNumber?.includes('&') ?? false;
  const serialNumber = invented ? null : (cleaned(facts.serialNumber) ?? null);
  const location = facts.location ?? (invented ? facts.serialNumber : undefined) ?? null;
  const board = { path: facts.path, vendorId, productId, serialNumber, location };
  return { id: identityOf(board), name: nameOf(facts, vendorId), ...board };
}

function identityOf(board: Omit<Board, 'id' | 'name'>): string {
  const { vendorId, productId, serialNumber, location } = board;
  if (vendorId === null) return `path:${board.path}`;
  const kind = `usb:${vendorId}:${productId ?? ''}`;
  if (serialNumber !== null) return `${kind}:${serialNumber}`;
  return location === null ? `path:${board.path}` : `${kind}@${location}`;
}

function nameOf(facts: PortFacts, vendorId: string | null): string {
  if (vendorId === null) {
    if (/rfcomm|bluetooth/i.test(`${facts.path} ${facts.product ?? ''}`)) {
      return `Bluetooth port (${facts.path})`;
    }
    return `Serial port (${facts.path})`;
  }
  const what = ADAPTER_VENDORS.has(vendorId) ? 'USB serial adapter' : 'USB board';
  const own = cleaned(facts.product) ?? cleaned(facts.maker);
  return own === undefined ? `${what} (${facts.path})` : `${what} (${own})`;
}

/** What a device says of itself, fit to be shown: printable, short, or not at all. */
function cleaned(text: string | undefined): string | undefined {
  const shown = text
    ?.replace(/[\p{C}\s]+/gu, ' ')
    .trim()
    .slice(0, OWN_NAME_LIMIT);
  return shown === '' ? undefined : shown;
}

/** Cheap copies share one serial number: then the socket tells them apart. */
function withUniqueIds(boards: readonly Board[]): Board[] {
  return boards.map((board) => {
    if (isUnique(boards, board, 'id')) return board;
    return { ...board, id: `${board.id}@${board.location ?? board.path}` };
  });
}

function withUniqueNames(boards: readonly Board[]): Board[] {
  return boards.map((board) => {
    if (isUnique(boards, board, 'name')) return board;
    return { ...board, name: `${board.name} at ${board.path}` };
  });
}

function isUnique(boards: readonly Board[], board: Board, field: 'id' | 'name'): boolean {
  return boards.every((other) => other === board || other[field] !== board[field]);
}

function comparePaths(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true });
}
