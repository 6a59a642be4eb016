/** A QR code (ISO/IEC 18004) as one SVG path: a unit square for each dark module. */
import { encode } from 'uqr';

/** Light modules that the standard wants on every side. */
export const QUIET_ZONE = 4;

export interface QrPath {
  readonly d: string;
  /** Modules on a side, the quiet zone included. */
  readonly size: number;
}

/** Level M: 15 % of it may be dirty or glaring, and an address still fits in few modules. */
export function qrPath(text: string): QrPath {
  const { data, size } = encode(text, { ecc: 'M', border: QUIET_ZONE });
  const runs = data.flatMap((row, y) =>
    row.flatMap((isDark, x) => (isDark ? [`M${x} ${y}h1v1h-1z`] : [])),
  );
  return { d: runs.join(''), size };
}
