import { useMemo } from 'preact/hooks';
import { qrPath } from '../draw/qr-path.ts';

/** Dark on light whatever the page's colours are: many cameras read nothing else. */
export function QrCode({ text, name }: { text: string; name: string }) {
  const { d, size } = useMemo(() => qrPath(text), [text]);
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={name} data-text={text}>
      <rect width={size} height={size} />
      <path d={d} />
    </svg>
  );
}
