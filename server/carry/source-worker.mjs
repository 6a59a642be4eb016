// The thread's entry in a checkout: teaches this thread to read TypeScript, then becomes worker.ts.
import { register } from 'tsx/esm/api';

register();
await import('./worker.ts');
