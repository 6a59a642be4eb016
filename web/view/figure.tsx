import { layFigure, WEIGHT } from '../draw/numeral.ts';

export interface FigureProps {
  readonly text: string;
  /** Stroke width of each character. */
  readonly weights: readonly number[];
  readonly class?: string;
}

/** A number in the page's own figures: a drawing; its text stands beside it for screen readers. */
export function Figure({ text, weights, class: className = '' }: FigureProps) {
  const { glyphs, width } = layFigure(text, weights);
  return (
    <svg
      class={`figure ${className}`}
      viewBox={`0 0 ${Math.max(width, 1)} 100`}
      aria-hidden="true"
      data-text={text}
      data-heavy={weights.map((weight) => (weight >= WEIGHT.heavy ? '1' : '0')).join('')}
    >
      {glyphs.map(({ path, x, weight, turned }, i) => (
        <path
          key={i}
          d={path}
          stroke-width={weight}
          transform={turned ? `translate(${x} 0) rotate(180 30 50)` : `translate(${x} 0)`}
        />
      ))}
    </svg>
  );
}

/** Stroke widths for digits that stand still or not; small figures need a stronger hairline. */
export function weightsOf(
  still: readonly boolean[],
  size: 'large' | 'small' = 'large',
): readonly number[] {
  const hairline = size === 'large' ? WEIGHT.hairline : 6;
  return still.map((isStill) => (isStill ? WEIGHT.heavy : hairline));
}
