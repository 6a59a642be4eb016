/** What the phone's page shares: what it watches, and what it may do. */
import { signal } from '@preact/signals';
import { operatorRequests } from '../feed/operating.ts';
import type { Bench } from '../model/bench.ts';
import { createAudience, type Audience } from '../view/audience.ts';
import { createOperator } from '../view/operator.ts';
import type { Editing, Operating } from '../view/page-state.ts';
import { createSpeaker, type Speaker } from '../voice/speaker.ts';
import { createPhonePass, type PhonePass } from './pass.ts';

export interface PhoneState extends Audience, Operating {
  readonly pass: PhonePass;
  readonly speaker: Speaker;
}

export function createPhoneState(bench: Bench): PhoneState {
  const audience = createAudience(bench);
  const pass = createPhonePass(bench);
  return {
    ...audience,
    pass,
    operator: createOperator(operatorRequests({ bench, ...pass })),
    chosenId: signal<number | null>(null),
    editing: signal<Editing | null>(null),
    speaker: createSpeaker(audience, audience.settings.voiceOn),
  };
}
