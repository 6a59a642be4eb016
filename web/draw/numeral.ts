/**
 * The page's own large figures: a skeleton for each digit on a box of 60 × 100, stroked. A heavy
 * figure and a hairline one have the same outer size, because the skeleton is refitted to the
 * stroke, so nothing jumps when a digit becomes certain.
 */

/** Skeletons: x from 10 to 50, y from 10 to 90; -1 and 101 mean "through the edge". */
const SKELETONS: Readonly<Record<string, string>> = {
  '0': 'M10 30A20 20 0 0 1 50 30V70A20 20 0 0 1 10 70Z',
  '1': 'M12 26C24 24 33 18 33 -1V101',
  '2': 'M10 32C10 18 18 10 30 10C42 10 50 18 50 29C50 39 46 45 38 53C27 64 12 74 12 90H54',
  '3': 'M8 10H47L28 43C41 43 50 53 50 66.5C50 80 42 90 30 90C19 90 12 84 10 75',
  '4': 'M33 -1L11 68H54M41 44V101',
  '5': 'M51 10H16L13 46C18 42 24 40 30 40C42 40 50 50 50 64.5C50 80 42 90 30 90C19 90 12 84 10 75',
  '6': 'M42 -1L14 54M30 42A20 24 0 1 0 30 90A20 24 0 1 0 30 42Z',
  '7': 'M6 10H49L26 101',
  '8': 'M30 10A17 17.5 0 1 0 30 45A17 17.5 0 1 0 30 10ZM30 45A20 22.5 0 1 0 30 90A20 22.5 0 1 0 30 45Z',
  '°': 'M10 22A12 13 0 1 1 34 22A12 13 0 1 1 10 22Z',
  '–': 'M16 54H44',
  '−': 'M12 52H48',
};

/** Stroke widths on the box: what moves, what was set, what stands still. */
export const WEIGHT = { hairline: 4, set: 12, heavy: 17 } as const;
export const DIGIT_HEIGHT = 100;
const ADVANCE = 67;
const DIGIT_WIDTH = 60;
const POINT_ADVANCE = 30;
const DEGREE_ADVANCE = 50;

/** One character of a figure, placed. */
export interface Glyph {
  readonly path: string;
  /** Left edge on the figure's box. */
  readonly x: number;
  readonly weight: number;
  /** Half a turn about the middle of its box: a nine is a six turned. */
  readonly turned: boolean;
}

export interface FigureShape {
  readonly glyphs: readonly Glyph[];
  readonly width: number;
}

/** How many numbers each path command takes, and which of them are coordinates. */
const COORDINATES: Readonly<Record<string, string>> = {
  M: 'xy',
  L: 'xy',
  H: 'x',
  V: 'y',
  C: 'xyxyxy',
  A: 'rs---xy',
  Z: '',
};

/** Refits a skeleton to a stroke of width `weight`. */
export function fitSkeleton(skeleton: string, weight: number): string {
  const x = (value: number): number => ((value - 10) * (DIGIT_WIDTH - weight)) / 40 + weight / 2;
  const y = (value: number): number => {
    if (value < 0) return -8;
    if (value > DIGIT_HEIGHT) return DIGIT_HEIGHT + 8;
    return ((value - 10) * (DIGIT_HEIGHT - weight)) / 80 + weight / 2;
  };
  const fit: Readonly<Record<string, (value: number) => number>> = {
    x,
    y,
    r: (value) => (value * (DIGIT_WIDTH - weight)) / 40,
    s: (value) => (value * (DIGIT_HEIGHT - weight)) / 80,
    '-': (value) => value,
  };
  return skeleton.replace(/([A-Z])([^A-Z]*)/g, (_all, command: string, rest: string) => {
    const roles = COORDINATES[command] ?? '';
    const numbers = rest.match(/-?[\d.]+/g) ?? [];
    const fitted = numbers.map((text, i) => round((fit[roles[i] ?? '-'] ?? x)(Number(text))));
    return `${command}${fitted.join(' ')}`;
  });
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}

const cache = new Map<string, string>();

function fitted(character: string, weight: number): string {
  const key = `${character}${weight}`;
  const known = cache.get(key);
  if (known !== undefined) return known;
  const path = isMark(character)
    ? pointPath(weight, character)
    : fitSkeleton(SKELETONS[character] ?? '', weight);
  cache.set(key, path);
  return path;
}

/** The mark before decimals: a point or a comma. */
function isMark(character: string): boolean {
  return character === '.' || character === ',';
}

/** A square point on the base line, drawn as a stroke as long as it is wide; a comma leans. */
function pointPath(weight: number, mark: string): string {
  const size = Math.max(weight, 7);
  const middle = (POINT_ADVANCE - (ADVANCE - DIGIT_WIDTH)) / 2;
  if (mark === '.') return `M${middle} ${DIGIT_HEIGHT - size}V${DIGIT_HEIGHT}`;
  return `M${middle + 4} ${DIGIT_HEIGHT - 1.4 * size}L${middle - 4} ${DIGIT_HEIGHT + 4}`;
}

/**
 * Lays a number out in figures.
 * @param text digits, "." or ",", a minus and a degree sign; "–" for a value that is not there
 * @param weights stroke width of each character of the text
 */
export function layFigure(text: string, weights: readonly number[]): FigureShape {
  const glyphs: Glyph[] = [];
  let x = 0;
  [...text].forEach((character, i) => {
    const weight = weights[i] ?? WEIGHT.hairline;
    const turned = character === '9';
    glyphs.push({
      path: fitted(turned ? '6' : character, weight),
      x,
      weight: isMark(character) ? Math.max(weight, 7) : weight,
      turned,
    });
    x += advanceOf(character);
  });
  return { glyphs, width: Math.max(x - (ADVANCE - DIGIT_WIDTH), 0) };
}

function advanceOf(character: string): number {
  if (isMark(character)) return POINT_ADVANCE;
  return character === '°' ? DEGREE_ADVANCE : ADVANCE;
}
