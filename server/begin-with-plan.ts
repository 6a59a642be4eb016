/** A session that begins with the plan of a file, another group's say. */
import { isDeepStrictEqual } from 'node:util';
import type { Command } from '#core/experiment/command.ts';
import type { Plan } from '#core/experiment/plan/plan.ts';

/**
 * Said as on the page. What has been planned already is somebody's decision, and stays.
 * @returns why it was left out, in a sentence; null when the session has it
 */
export async function beginWithPlan(
  plan: Plan,
  { planned, sessionName, say }: {
    readonly planned: Plan | null;
    readonly sessionName: string;
    say(command: Command): Promise<unknown>;
  },
): Promise<string | null> {
  if (planned === null) {
    await say({ say: 'plan', plan });
    return null;
  }
  if (isDeepStrictEqual(planned, plan)) return null;
  return `The session "${sessionName}" has another plan and keeps it: --plan was left out. Begin a new session on the page, and start from the file in the plan's form.`;
}
