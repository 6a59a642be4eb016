/** Over a picture: what it is of, of which session and day, and that nothing in it was measured. */
import type { Bench } from '../model/bench.ts';
import type { Catalogue } from '../words/catalogue.ts';

/** Room that it takes, rem; the names of a plot's topmost grid line have some of it. */
export const HEAD_ROOM = 4.2;

export interface PictureSource {
  readonly bench: Bench;
  readonly words: { readonly value: Catalogue };
}

interface HeadProps {
  readonly page: PictureSource;
  /** With the unit. */
  readonly title: string;
  /** When: the moment it was frozen at; else the day of the session. */
  readonly at?: Date | null;
  /** The question that it is to answer, where there is room for it. */
  readonly question?: string | undefined;
  readonly right: number;
  readonly rem: number;
}

export function PictureHead({ page, title, at = null, question, right, rem }: HeadProps) {
  return (
    <>
      <text class="picture-title" x="0" y={1.2 * rem}>
        {title}
      </text>
      <text class="soft" x="0" y={2.4 * rem}>
        {[...originOf(page, at), question].filter((text) => text !== undefined).join(' · ')}
      </text>
      <Simulated page={page} right={right} rem={rem} />
    </>
  );
}

/** Of which session, so that a picture that has left its page still says so. */
function originOf({ bench, words }: PictureSource, at: Date | null) {
  const session = bench.status.value?.session;
  const { language } = words.value;
  const day = session === undefined ? null : new Date(session.startedAt);
  const when =
    at?.toLocaleString(language, { dateStyle: 'long', timeStyle: 'medium' }) ??
    day?.toLocaleDateString(language, { dateStyle: 'long' });
  return [session?.name, when];
}

/** An inverted label. */
function Simulated({ page, right, rem }: Pick<HeadProps, 'page' | 'right' | 'rem'>) {
  const { status, trials } = page.bench;
  const isSimulated =
    status.value?.simulated === true || trials.value.some(({ simulated }) => simulated);
  if (!isSimulated) return null;
  const label = page.words.value.page.simulated.replace(/[\s·]+$/, '');
  const width = (0.62 * label.length + 1) * rem;
  return (
    <g class="simulated">
      <rect x={right - width} y="0" width={width} height={1.6 * rem} />
      <text x={right - width / 2} y={1.15 * rem} text-anchor="middle">
        {label}
      </text>
    </g>
  );
}
