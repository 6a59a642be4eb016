import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the checkout. */
export const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));
