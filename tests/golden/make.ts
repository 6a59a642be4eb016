/**
 * Records the golden session anew: `node --import tsx tests/golden/make.ts`. Only when the derived
 * numbers are meant to change; then raise CORE_VERSION too, and look at the difference.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encodeInputs } from '../../server/store/input-codec.ts';
import { deriveTrials, recordInputs } from './session.ts';

const at = (name: string): string => join(import.meta.dirname, name);
const inputs = recordInputs();
writeFileSync(at('session.inputs'), encodeInputs(inputs));
writeFileSync(at('trials.json'), `${JSON.stringify(deriveTrials(inputs), null, 2)}\n`);
console.log(`${inputs.length} inputs`);
