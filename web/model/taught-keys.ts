/** Keys that an operator has taught this device: a clicker's, or any keyboard's. */
import type { KeyAction } from '../words/bench-words.ts';

export const KEY_ACTIONS: readonly KeyAction[] = ['log', 'next', 'again', 'strike'];

export type TaughtKeys = Readonly<Partial<Record<KeyAction, string>>>;

/** What was kept on the device; anything else that stands there is no key. */
export function readTaught(kept: string | null): TaughtKeys {
  const found: unknown = parsed(kept);
  if (typeof found !== 'object' || found === null) return {};
  const entries = KEY_ACTIONS.flatMap((action) => {
    const key: unknown = Reflect.get(found, action);
    return typeof key === 'string' && key !== '' && key.length <= 32 ? [[action, key]] : [];
  });
  return Object.fromEntries(entries) as TaughtKeys;
}

function parsed(text: string | null): unknown {
  try {
    return JSON.parse(text ?? 'null');
  } catch {
    return null;
  }
}

/** The same without one; the key that does one thing does no other any more. */
export function withTaught(taught: TaughtKeys, action: KeyAction, key: string | null): TaughtKeys {
  const others = KEY_ACTIONS.flatMap((one) => {
    const has = taught[one];
    return one === action || has === undefined || has === key ? [] : [[one, has]];
  });
  const own = key === null ? [] : [[action, key]];
  return Object.fromEntries([...others, ...own]) as TaughtKeys;
}

/** A key as people call it. */
export function keyName(key: string): string {
  const names: Readonly<Record<string, string>> = {
    ' ': 'space',
    PageUp: 'Page Up',
    PageDown: 'Page Down',
    ArrowLeft: '←',
    ArrowRight: '→',
    ArrowUp: '↑',
    ArrowDown: '↓',
  };
  return names[key] ?? (key.length === 1 ? key.toUpperCase() : key);
}
