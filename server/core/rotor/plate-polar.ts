/**
 * Lift and drag of a thin plate, flat or slightly cambered, at any angle of attack and the low
 * Reynolds numbers of a bench-top rotor (some ten thousand), where such plates beat thick sections
 * and hardly depend on it (Winslow, Otsuka, Govindarajan and Chopra, J. Aircraft 55(3), 2018,
 * abstract).
 *
 * Below stall: measured on a flat plate of aspect ratio 2 at a Reynolds number of 140 000
 * (A. Pelletier and T. J. Mueller, J. Aircraft 37(5), 2000; read coarsely off its figures), with
 * the tips' part taken off by lifting-line theory: the momentum equations bring their own tip.
 * In deep stall: the normal force of S. F. Hoerner as C. Lindenburg gives it (ECN-C--03-025, 2003,
 * from memory). In between one passes into the other.
 */
export interface ForceCoefficients {
  readonly lift: number;
  readonly drag: number;
}

/** Force on a section at an angle of attack between −π and π. */
export type Polar = (angleOfAttack_rad: number) => ForceCoefficients;

export interface Plate {
  /** Height of the arc over its chord; 0 is flat. */
  readonly camber: number;
  /** Drag coefficient square to the wind. */
  readonly broadsideDrag: number;
  /** Drag below stall, relative to that of the plate that was measured; 1 is as measured. */
  readonly smoothness: number;
}

const DEGREE = Math.PI / 180;
const MEASURED_ASPECT_RATIO = 2;
/** Angle of attack in degrees, lift coefficient, drag coefficient. */
const MEASURED: readonly (readonly [number, number, number])[] = [
  [0, 0, 0.015],
  [3, 0.15, 0.02],
  [6, 0.3, 0.035],
  [8, 0.4, 0.06],
  [10, 0.5, 0.08],
  [15, 0.7, 0.18],
  [20, 0.75, 0.28],
  [25, 0.67, 0.33],
];
/** The same without tips: elliptic lift turns the flow by C_L / (π AR). */
const WITHOUT_TIPS = MEASURED.map(([angle_deg, lift, drag]) => {
  const induced_rad = lift / (Math.PI * MEASURED_ASPECT_RATIO);
  return { angle_rad: angle_deg * DEGREE - induced_rad, lift, drag: drag - lift * induced_rad };
});
/** Here the measured forces begin to give way to those of deep stall, and here they have. */
const STALL_BEGINS = 15 * DEGREE;
const STALL_ENDS = 30 * DEGREE;

/**
 * Drag coefficient of a plate square to the wind, for aspect ratios up to 50 (L. A. Viterna, NASA
 * TM-82944, from memory); one without ends has 1.98 (Lindenburg).
 */
export function broadsideDrag(aspectRatio: number): number {
  return 1.11 + 0.018 * Math.min(aspectRatio, 50);
}

export function platePolar({ camber, broadsideDrag, smoothness }: Plate): Polar {
  // A thin circular arc lifts nothing at minus twice its camber (thin-aerofoil theory).
  const shift_rad = 2 * camber;
  return (angleOfAttack_rad) => {
    const angle_rad = folded(angleOfAttack_rad);
    const deep = deepStall(angle_rad, broadsideDrag);
    const shifted_rad = angle_rad + shift_rad;
    const steepness_rad = Math.abs(shifted_rad);
    const stalled = smoothStep((steepness_rad - STALL_BEGINS) / (STALL_ENDS - STALL_BEGINS));
    if (stalled === 1) return deep;
    const { lift, drag } = belowStall(steepness_rad);
    // A plate has no nose for the air to pull on, even where the figures, read coarsely, say so.
    const leastDrag = lift * Math.tan(steepness_rad);
    return {
      lift: (1 - stalled) * Math.sign(shifted_rad) * lift + stalled * deep.lift,
      drag: (1 - stalled) * Math.max(smoothness * drag, leastDrag) + stalled * deep.drag,
    };
  };
}

/** A plate turned by half a turn is the same plate. */
function folded(angle_rad: number): number {
  return angle_rad - Math.PI * Math.round(angle_rad / Math.PI);
}

/** Only a normal force is left, which moves back as the plate turns from the wind. */
function deepStall(angle_rad: number, broadsideDrag: number): ForceCoefficients {
  const sine = Math.sin(angle_rad);
  const normal = (broadsideDrag * sine) / (0.56 + 0.44 * Math.abs(sine));
  return { lift: normal * Math.cos(angle_rad), drag: normal * sine };
}

function belowStall(angle_rad: number): ForceCoefficients {
  let before = WITHOUT_TIPS[0]!;
  for (const after of WITHOUT_TIPS) {
    if (angle_rad < after.angle_rad) {
      const share = (angle_rad - before.angle_rad) / (after.angle_rad - before.angle_rad);
      return {
        lift: before.lift + share * (after.lift - before.lift),
        drag: before.drag + share * (after.drag - before.drag),
      };
    }
    before = after;
  }
  return before;
}

/** From 0 to 1 without a kink at either end. */
function smoothStep(share: number): number {
  const x = Math.min(Math.max(share, 0), 1);
  return x * x * (3 - 2 * x);
}
