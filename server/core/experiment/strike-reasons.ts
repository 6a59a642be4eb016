/** Why the program itself strikes a trial, as it is kept with it; pages say it in their language. */
export const STRIKE_REASONS = {
  byButton: 'Struck with the button on the board.',
  notSettled: 'Looking back, the reading had not settled.',
  takenBack: 'Taken back.',
} as const;

export type StrikeReason = keyof typeof STRIKE_REASONS;

/** Which of them a reason is; null: people's own words. */
export function strikeReasonOf(text: string): StrikeReason | null {
  const kinds = Object.keys(STRIKE_REASONS) as StrikeReason[];
  return kinds.find((kind) => STRIKE_REASONS[kind] === text) ?? null;
}
