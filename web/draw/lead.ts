/**
 * Threads and cord where no curve is drawn: they come in at the edge of the page, lie packed along
 * a straight run, and bend into the answer plot, each to its true height. Joined ones are one
 * cord, which tapers to the height of a trial's dash; loose ones lie beside it, above where they
 * are higher and below where they are lower, and waver the more the further off they are (the wave
 * is a sign, not data).
 */

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface LeadPlaces {
  /** Where threads come in: beyond the page's edge. */
  readonly fromX: number;
  /** Where the run ends and the bend begins. */
  readonly bendX: number;
  /** Middle of the cord along the run. */
  readonly runY: number;
  /** Left edge of the slot, where all end. */
  readonly slotX: number;
  /** Thickness of a cord of all threads along the run, and at the slot. */
  readonly cordWidth: number;
  readonly endWidth: number;
  /** How far loose threads may lie from the middle, waves included. */
  readonly looseRoom: number;
  /** Leftmost point of the bend where it goes round the left edge; null: it bends up. */
  readonly roundX: number | null;
  /** From here on no thread lies below the floor: the names stand there. */
  readonly clearX: number;
  readonly floorY: number;
  yOf(power_W: number): number;
}

export interface LeadLook {
  /** Height at which the cord ends. */
  readonly level_W: number;
  readonly gait: 'waver' | 'crossing' | 'straight';
  /** Moves the wave along, radians. */
  readonly phase: number;
}

export interface Lead {
  /** Outline of the cord, to be filled; null where nothing is joined. */
  readonly cord: string | null;
  /** Paths of the loose threads, to be stroked. */
  readonly loose: readonly string[];
}

const RUN_POINTS = 48;
const BEND_POINTS = 44;
/** Waves along the run. */
const WAVES = 2.2;

export function layLead(
  threads: readonly { readonly power_W: number; readonly joined: boolean }[],
  places: LeadPlaces,
  look: LeadLook,
): Lead {
  const joined = threads.filter((thread) => thread.joined).length;
  const share = joined / Math.max(threads.length, 1);
  const endY = places.yOf(look.level_W);
  const cord = joined === 0 ? null : cordOutline(share, endY, places);
  const loose = threads.filter((thread) => !thread.joined).map(({ power_W }) => power_W);
  const halfCord = (share * places.cordWidth) / 2;
  const above = loose.filter((power_W) => power_W > look.level_W).sort((a, b) => a - b);
  const below = loose.filter((power_W) => power_W <= look.level_W).sort((a, b) => b - a);
  const layer = (power_W: number, i: number, count: number, side: number): string => {
    const room = places.looseRoom - halfCord;
    const spread = look.gait === 'crossing' ? 0.35 : 0.62;
    const gap = Math.min((spread * room) / Math.max(count, 1), room / 12);
    const offset = side * (halfCord + (i + 0.6) * gap);
    const wave = look.gait === 'straight' ? 0 : waveHeight(i, count, room, look.gait);
    const line = centreLine(offset, places.yOf(power_W), places);
    return strokePath(waved(line, wave, look.phase + i * 2.4 + side));
  };
  return {
    cord,
    loose: [
      ...above.map((power_W, i) => layer(power_W, i, above.length, -1)),
      ...below.map((power_W, i) => layer(power_W, i, below.length, 1)),
    ],
  };
}

/** Further off, more wave; threads that keep crossing all take the whole room. */
function waveHeight(i: number, count: number, room: number, gait: LeadLook['gait']): number {
  return gait === 'crossing' ? 0.55 * room : (0.36 * room * (i + 1)) / Math.max(count, 4);
}

/** The run and the bend of a thread that lies `offset` off the cord's middle. */
function centreLine(offset: number, endY: number, places: LeadPlaces): readonly Point[] {
  const { fromX, bendX, runY } = places;
  const y = runY + offset;
  const run = Array.from({ length: RUN_POINTS }, (_, i) => {
    return { x: fromX + ((bendX - fromX) * i) / RUN_POINTS, y };
  });
  return [...run, ...bendOf({ x: bendX, y }, endY, places).map((point) => above(point, y, places))];
}

/** Keeps the names below the floor clear. */
function above({ x, y }: Point, fromY: number, places: LeadPlaces): Point {
  const { bendX, clearX, floorY, roundX } = places;
  if (roundX !== null) return { x, y };
  const share = Math.min(Math.max((x - bendX) / (clearX - bendX), 0), 1);
  const ramp = share * share * (3 - 2 * share);
  const start = Math.max(fromY, floorY);
  const lowest = start + (floorY - start) * ramp;
  return { x, y: Math.min(y, lowest) };
}

function bendOf(from: Point, endY: number, places: LeadPlaces): readonly Point[] {
  const { slotX, roundX, bendX, runY } = places;
  if (roundX === null) {
    const reach = (slotX - from.x) * 0.46;
    const end = { x: slotX, y: endY };
    return cubic(from, { ...from, x: from.x + reach }, { ...end, x: slotX - reach }, end);
  }
  // Half an oval round the left edge; what lies further in along the run stays further in.
  const radius = Math.max(bendX - roundX - Math.max(from.y - runY, 0) * 0.8, 4);
  const middleY = (from.y + endY) / 2;
  const leftX = bendX - radius;
  // A slot left of the bend is met by a narrower half: nothing runs past it and back.
  const backX = Math.max(Math.min(slotX, bendX), leftX + 4);
  const oval = Array.from({ length: BEND_POINTS }, (_, i) => {
    const angle = (Math.PI * (i + 1)) / BEND_POINTS;
    const toX = angle > Math.PI / 2 ? backX : bendX;
    return {
      x: toX - (toX - leftX) * Math.sin(angle),
      y: middleY - ((endY - from.y) / 2) * Math.cos(angle),
    };
  });
  return [from, ...oval, { x: slotX, y: endY }];
}

function cubic(a: Point, b: Point, c: Point, d: Point): readonly Point[] {
  return Array.from({ length: BEND_POINTS + 1 }, (_, i) => {
    const t = i / BEND_POINTS;
    const [s, t2] = [1 - t, t * t];
    const at = (p: number, q: number, r: number, e: number): number =>
      s * s * s * p + 3 * s * s * t * q + 3 * s * t2 * r + t2 * t * e;
    return { x: at(a.x, b.x, c.x, d.x), y: at(a.y, b.y, c.y, d.y) };
  });
}

/** Waves along the run that die away towards the bend. */
function waved(line: readonly Point[], height: number, phase: number): readonly Point[] {
  if (height < 0.3) return line;
  return line.map(({ x, y }, i) => {
    const share = Math.min(i / RUN_POINTS, 1);
    const fade = (1 - share) ** 0.8;
    return { x, y: y + height * fade * Math.sin(share * WAVES * 2 * Math.PI + phase) };
  });
}

/** The cord as a shape: as thick as its share of threads along the run, as the dash at the slot. */
function cordOutline(share: number, endY: number, places: LeadPlaces): string {
  const line = centreLine(0, endY, places);
  const widthAt = (i: number): number => {
    const along = Math.min(Math.max((i - RUN_POINTS) / (BEND_POINTS * 0.6), 0), 1);
    const full = places.cordWidth + (places.endWidth - places.cordWidth) * along;
    return Math.max(full * share, places.endWidth / 5);
  };
  const sides = line.map((point, i) => {
    const [before, after] = [line[i - 1] ?? point, line[i + 1] ?? point];
    const [dx, dy] = [after.x - before.x, after.y - before.y];
    const length = Math.hypot(dx, dy) || 1;
    const half = widthAt(i) / 2;
    const across = { x: (-dy / length) * half, y: (dx / length) * half };
    return [
      { x: point.x + across.x, y: point.y + across.y },
      { x: point.x - across.x, y: point.y - across.y },
    ] as const;
  });
  const outline = [...sides.map(([left]) => left), ...sides.map(([, right]) => right).reverse()];
  return `${strokePath(outline)}Z`;
}

function strokePath(points: readonly Point[]): string {
  return `M${points.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}`;
}
