import { LANGUAGES } from '../words/catalogue.ts';
import { CATALOGUES, isLanguage } from '../words/languages.ts';
import type { Settings } from './settings.ts';

/** The page's language, on this device alone; each is named in itself. */
export function LanguageChoice({ settings }: { settings: Settings }) {
  const { language, words } = settings;
  return (
    <p class="languages" role="group" aria-label={words.value.page.language}>
      {LANGUAGES.map((tag) => (
        <button
          key={tag}
          type="button"
          lang={tag}
          aria-pressed={language.value === tag}
          onClick={() => (language.value = tag)}
        >
          {CATALOGUES[tag].name}
        </button>
      ))}
    </p>
  );
}

/** The same in one line, where there is little room. */
export function LanguageField({ settings: { language, words } }: { settings: Settings }) {
  return (
    <select
      aria-label={words.value.page.language}
      value={language.value}
      onChange={({ currentTarget }) => {
        if (isLanguage(currentTarget.value)) language.value = currentTarget.value;
      }}
    >
      {LANGUAGES.map((tag) => (
        <option key={tag} value={tag} lang={tag}>
          {CATALOGUES[tag].name}
        </option>
      ))}
    </select>
  );
}
