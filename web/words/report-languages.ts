/** The report's words by language; pages that show no report do not load them. */
import type { Language } from './catalogue.ts';
import type { ReportWords } from './report-words.ts';
import { deReport } from './report/de.ts';
import { enReport } from './report/en.ts';
import { esReport } from './report/es.ts';
import { frReport } from './report/fr.ts';

export const REPORT_WORDS: Readonly<Record<Language, ReportWords>> = {
  en: enReport,
  de: deReport,
  es: esReport,
  fr: frReport,
};
