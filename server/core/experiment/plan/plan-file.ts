/** A plan that comes in a file: what a session's file has beside its trials, or a plan alone. */
import { z } from 'zod';
import { planObstacles } from './obstacles.ts';
import { PlanSchema, type Plan } from './plan.ts';

/** Its name in a session's file. */
export const PLAN_FILE = 'plan.json';
export const LARGEST_PLAN_bytes = 2 ** 20;

export const PLAN_FILE_FAULTS = {
  'no-plan-file': 'There is no plan in it. Choose a session’s file, or the plan.json of one.',
  'session-without-plan': 'That session had no plan.',
  'plan-unfit': 'What it holds is no plan that can be carried out here. Was it altered, or made by a newer Stillmark?',
} as const;
export type PlanFileFault = keyof typeof PLAN_FILE_FAULTS;

export type PlanRead = { readonly plan: Plan } | { readonly fault: PlanFileFault };

const InSessionSchema = z.object({ plan: z.unknown() });

/** @param text `{"plan": …}`, as sessions are saved, or a plan alone; null where nothing was found */
export function readPlanFile(text: string | null): PlanRead {
  const json = text === null ? undefined : parseJson(text);
  if (typeof json !== 'object' || json === null) return { fault: 'no-plan-file' };
  const inSession = InSessionSchema.safeParse(json);
  const given = inSession.success && 'plan' in json ? inSession.data.plan : json;
  if (given === null) return { fault: 'session-without-plan' };
  const read = PlanSchema.safeParse(given);
  const isFit = read.success && planObstacles(read.data).length === 0;
  return isFit ? { plan: read.data } : { fault: 'plan-unfit' };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
