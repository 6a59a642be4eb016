/** Keeps a drawing as a file. It is drawn anew for it, in a corner that nobody sees. */
import { render, type ComponentChild } from 'preact';
import type { Catalogue } from '../words/catalogue.ts';
import { keepFile } from './keep-file.ts';
import { pngFile, svgFile } from './picture.ts';

const FORMATS = ['SVG', 'PNG'] as const;
type Format = (typeof FORMATS)[number];

interface Picture {
  /** What it is of. */
  readonly title: string;
  /** Of the file, without its ending. */
  readonly name: string;
  /** An SVG of the class `picture`, with all that it takes to be read by itself. */
  readonly draw: () => ComponentChild;
}

export function SavePicture({ words, ...picture }: Picture & { readonly words: Catalogue }) {
  const { keep, save } = words.top.field;
  return (
    <p class="save-picture">
      <span class="soft">{keep}</span>
      {FORMATS.map((format) => (
        <button
          key={format}
          type="button"
          aria-label={save(format, picture.title)}
          onClick={() => void keepAs(format, picture)}
        >
          {format}
        </button>
      ))}
    </p>
  );
}

async function keepAs(format: Format, { name, draw }: Picture): Promise<void> {
  const host = document.createElement('div');
  host.className = 'picture-host';
  document.body.append(host);
  render(draw(), host);
  const drawing = host.querySelector('svg');
  if (drawing === null) throw new Error(`nothing was drawn of ${name}`);
  const made = format === 'SVG' ? svgFile(drawing) : pngFile(drawing);
  render(null, host);
  host.remove();
  const file = await made;
  if (file !== null) keepFile(file, `stillmark-${name}.${format.toLowerCase()}`);
}
