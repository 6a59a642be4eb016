/** A share of the wind's power, beside the most that any rotor can take. */
import { BETZ_LIMIT } from '#core/rotor/wind/wind-power.ts';
import type { ShownScale } from '../model/coefficient.ts';
import type { WindWords } from '../words/wind-words.ts';

const LONG = 1000;

/** All that the wind carries as an outline; what no rotor can take of it as the ground's tint. */
export function WindScale({ scale, say }: { scale: ShownScale; say: WindWords }) {
  const { value, low, high, ideal } = scale;
  return (
    <figure class="wind-scale">
      <svg viewBox={`0 0 ${LONG} 34`} preserveAspectRatio="none" aria-hidden="true">
        <rect class="never" x={LONG * BETZ_LIMIT} y="6" width={LONG * (1 - BETZ_LIMIT)} height="18" />
        <rect class="all" x="0" y="6" width={LONG} height="18" />
        <rect class="used" x="0" y="6" width={Math.max(LONG * value, 1)} height="18" />
        <path class="spread" d={`M${LONG * low} 31H${LONG * high}`} />
        {ideal !== null && <path class="ideal" d={`M${LONG * ideal} 6V24`} />}
        <path class="betz" d={`M${LONG * BETZ_LIMIT} 0V30`} />
      </svg>
      <figcaption aria-hidden="true">
        <span>{say.scale.betz(scale.betz)}</span>
        <span>{say.scale.all}</span>
      </figcaption>
    </figure>
  );
}
