/** What the page keeps on this device, where the browser allows it. */

/** Private windows may refuse storage; the page works without. */
export function recall(key: string): string | null {
  try {
    return localStorage.getItem(`stillmark.${key}`);
  } catch {
    return null;
  }
}

export function keep(key: string, value: string | null): void {
  try {
    if (value === null) localStorage.removeItem(`stillmark.${key}`);
    else localStorage.setItem(`stillmark.${key}`, value);
  } catch {
    // Nothing to do: the setting lasts as long as the page.
  }
}
