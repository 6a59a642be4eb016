/**
 * A drawing of the page as a picture of its own, on light paper whatever the page wears: it is
 * printed, or goes into a document. As SVG it holds all that it looks like; as PNG it is painted
 * from that SVG, shape by shape, because the page's content policy lets no picture in that this
 * server has not served.
 */

/** What a shape looks like, as attributes of SVG. */
const LOOKS = [
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'font-family',
  'font-size',
  'font-weight',
] as const;

/** As wide as a projector shows, pixels. */
const PNG_WIDTH_px = 1920;
/** Ground all round the drawing, in the drawing's units. */
const MARGIN = 20;

/** A copy with every look written into it: it needs no style sheet. */
function selfContained(drawing: SVGSVGElement): SVGSVGElement {
  const { dataset } = document.documentElement;
  const worn = dataset['theme'];
  // Put back before anything is painted.
  dataset['theme'] = 'light';
  try {
    return withLooks(drawing);
  } finally {
    if (worn === undefined) delete dataset['theme'];
    else dataset['theme'] = worn;
  }
}

function withLooks(drawing: SVGSVGElement): SVGSVGElement {
  const copy = drawing.cloneNode(true) as SVGSVGElement;
  const [shown, copied] = [drawing, copy].map((root) => [...root.querySelectorAll('*')]);
  shown?.forEach((element, i) => {
    const style = getComputedStyle(element);
    for (const look of LOOKS) copied?.[i]?.setAttribute(look, style.getPropertyValue(look));
    copied?.[i]?.removeAttribute('class');
  });
  const { left, top, width, height } = outerBox(drawing);
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('viewBox', `${left} ${top} ${width} ${height}`);
  copy.setAttribute('width', String(width));
  copy.setAttribute('height', String(height));
  copy.removeAttribute('class');
  copy.prepend(groundOf({ left, top, width, height }));
  return copy;
}

/** The paper that the drawing lies on. */
function groundOf({ left, top, width, height }: Box): SVGRectElement {
  const ground = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  const { backgroundColor } = getComputedStyle(document.body);
  const looks = { x: left, y: top, width, height, fill: backgroundColor, stroke: 'none' };
  for (const [name, value] of Object.entries(looks)) ground.setAttribute(name, String(value));
  return ground;
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The drawing with its margin. */
function outerBox({ viewBox: { baseVal } }: SVGSVGElement): Box {
  const around = 2 * MARGIN;
  return {
    left: baseVal.x - MARGIN,
    top: baseVal.y - MARGIN,
    width: baseVal.width + around,
    height: baseVal.height + around,
  };
}

export function svgFile(drawing: SVGSVGElement): Blob {
  const text = new XMLSerializer().serializeToString(selfContained(drawing));
  return new Blob([`<?xml version="1.0" encoding="UTF-8"?>\n${text}\n`], { type: 'image/svg+xml' });
}

/** Resolves with null where the browser can't make one. */
export async function pngFile(drawing: SVGSVGElement): Promise<Blob | null> {
  const { left, top, width, height } = outerBox(drawing);
  const scale = PNG_WIDTH_px / width;
  // Off screen it is written at once; a canvas of the page waits for a page that is idle.
  const canvas = new OffscreenCanvas(PNG_WIDTH_px, Math.round(height * scale));
  const context = canvas.getContext('2d');
  if (context === null) return null;
  context.scale(scale, scale);
  context.translate(-left, -top);
  for (const shape of selfContained(drawing).querySelectorAll('path, line, rect, circle, text')) {
    paint(context, shape);
  }
  return canvas.convertToBlob({ type: 'image/png' });
}

function paint(context: OffscreenCanvasRenderingContext2D, shape: Element): void {
  const look = (name: (typeof LOOKS)[number]): string => shape.getAttribute(name) ?? '';
  const [fill, stroke] = [look('fill'), look('stroke')];
  if (shape.tagName === 'text') {
    if (fill === 'none') return;
    context.fillStyle = fill;
    context.font = `${look('font-weight')} ${look('font-size')} ${look('font-family')}`;
    context.textAlign = ALIGNED[shape.getAttribute('text-anchor') ?? 'start'] ?? 'left';
    context.fillText(shape.textContent ?? '', number(shape, 'x'), number(shape, 'y'));
    return;
  }
  const path = outlineOf(shape);
  if (fill !== 'none' && shape.tagName !== 'line') {
    context.fillStyle = fill;
    context.fill(path);
  }
  if (stroke === 'none') return;
  context.strokeStyle = stroke;
  context.lineWidth = parseFloat(look('stroke-width'));
  context.lineCap = look('stroke-linecap') as CanvasLineCap;
  context.lineJoin = look('stroke-linejoin') as CanvasLineJoin;
  context.setLineDash((look('stroke-dasharray').match(/[\d.]+/g) ?? []).map(Number));
  context.stroke(path);
}

const ALIGNED: Readonly<Record<string, CanvasTextAlign>> = {
  start: 'left',
  middle: 'center',
  end: 'right',
};

function outlineOf(shape: Element): Path2D {
  const at = (name: string): number => number(shape, name);
  const path = new Path2D(shape.getAttribute('d') ?? '');
  switch (shape.tagName) {
    case 'line':
      path.moveTo(at('x1'), at('y1'));
      path.lineTo(at('x2'), at('y2'));
      break;
    case 'rect':
      path.rect(at('x'), at('y'), at('width'), at('height'));
      break;
    case 'circle':
      path.arc(at('cx'), at('cy'), at('r'), 0, 2 * Math.PI);
      break;
  }
  return path;
}

function number(shape: Element, name: string): number {
  return Number(shape.getAttribute(name) ?? 0);
}
