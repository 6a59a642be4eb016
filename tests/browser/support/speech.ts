/** Stands in for the browser's voice: keeps what it is given to say. */
import type { Page } from 'playwright-core';

export async function replaceSpeech(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const spoken: string[] = [];
    const voice = { name: 'Test', lang: 'en-GB', localService: true, default: true };
    Object.assign(globalThis, {
      spoken,
      SpeechSynthesisUtterance: class {
        readonly text: string;
        constructor(text: string) {
          this.text = text;
        }
      },
    });
    Object.defineProperty(globalThis, 'speechSynthesis', {
      value: {
        getVoices: () => [voice],
        cancel: () => undefined,
        speak: ({ text }: { text: string }) => spoken.push(text),
      },
    });
  });
}

export async function spokenOn(page: Page): Promise<string[]> {
  return page.evaluate(() => (globalThis as unknown as { spoken: string[] }).spoken);
}
