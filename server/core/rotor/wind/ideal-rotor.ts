/**
 * The most that a rotor can take which leaves swirl behind it (H. Glauert, 1935): what turns the
 * rotor one way turns the air the other way, and the slower the rotor, the more is lost with that
 * swirl. For a tip speed ratio of 1 it is 0.4155, for 10 it is 0.5852; it tends to Betz's limit.
 */

const HALVINGS = 60;
/** Below it the closed form's terms, all but alike, leave no digits of their difference. */
const SLOW = 1e-3;

/**
 * C_p = (24/λ²) ∫ [(1 − a)(1 − 2a)(1 − 4a)/(1 − 3a)]² da from a = 1/4 to a₂, the induction at the
 * tip, with (1 − a₂)(4a₂ − 1)² = λ²(1 − 3a₂). With x = 1 − 3a the integral has a closed form
 * (D. M. Eggleston and F. S. Stoddard, 1987; from memory, checked by quadrature).
 * @param tipSpeedRatio above 0
 */
export function idealPowerCoefficient(tipSpeedRatio: number): number {
  if (tipSpeedRatio < SLOW) return slowPowerCoefficient(tipSpeedRatio);
  const gained = primitive(1 / 4) - primitive(tipInductionLeft(tipSpeedRatio));
  return (8 * gained) / (729 * tipSpeedRatio ** 2);
}

/** The same integral with a = 1/4 + δ, to the second power of λ: good to a millionth. */
function slowPowerCoefficient(tipSpeedRatio: number): number {
  return (Math.sqrt(3) / 2) * tipSpeedRatio - (3 / 4) * tipSpeedRatio ** 2;
}

function primitive(x: number): number {
  const polynomial = ((((64 / 5) * x + 72) * x + 124) * x + 38) * x - 63;
  return polynomial * x - 12 * Math.log(x) - 4 / x;
}

/** x = 1 − 3a₂ from (2 + x)(1 − 4x)² = 27 λ² x, which falls from one side and rises on the other. */
function tipInductionLeft(tipSpeedRatio: number): number {
  const rising = 27 * tipSpeedRatio ** 2;
  let [low, high] = [0, 1 / 4];
  for (let i = 0; i < HALVINGS; i += 1) {
    const x = (low + high) / 2;
    if ((2 + x) * (1 - 4 * x) ** 2 > rising * x) low = x;
    else high = x;
  }
  return high;
}
