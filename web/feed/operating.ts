/** What an operator does, as requests: with who does it, and with what it was meant for. */
import { meantFor } from '#core/experiment/meant-for.ts';
import type { Bench } from '../model/bench.ts';
import type { Operator } from '../view/operator.ts';
import { post, type Beside, type Refusal } from './requests.ts';

export interface OperatingWays {
  readonly bench: Bench;
  /** Who does it, where that has to be said. */
  readonly identity: () => Beside;
  /** Hears of each request: refused, or (null) done. */
  readonly tell: (refusal: Refusal | null) => void;
}

export function operatorRequests(ways: OperatingWays): Pick<Operator, 'act' | 'say'> {
  const { bench, identity, tell } = ways;
  const send = async (
    path: '/api/actions' | '/api/experiment',
    asked: Parameters<typeof meantFor>[1],
  ): Promise<boolean> => {
    const refusal = await post(path, asked, { ...identity(), ...meantHeader(bench, asked) });
    tell(refusal);
    return refusal === null;
  };
  return {
    act: (request) => void send('/api/actions', request),
    say: (command) => send('/api/experiment', command),
  };
}

/** If-Match: what the page shows, as far as it matters (RFC 9110, 13.1.1). */
function meantHeader(bench: Bench, asked: Parameters<typeof meantFor>[1]): Beside {
  const status = bench.status.value;
  if (status === null) return {};
  const seen = {
    sessionId: status.session.id,
    experiment: bench.experiment.value,
    newestTrialId: bench.trials.value.at(-1)?.id ?? null,
  };
  return { 'if-match': `"${encodeURIComponent(meantFor(seen, asked))}"` };
}
