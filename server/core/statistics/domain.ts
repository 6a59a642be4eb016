/** What every law's functions refuse: such arguments are a mistake in the program. */

/** @throws RangeError unless strictly between 0 and 1 */
export function checkProbability(probability: number): void {
  if (probability > 0 && probability < 1) return;
  throw new RangeError(`a probability between 0 and 1 is needed, not ${probability}`);
}

/** @throws RangeError unless above 0 */
export function checkFreedom(...degreesOfFreedom: readonly number[]): void {
  for (const degrees of degreesOfFreedom) {
    if (!(degrees > 0)) throw new RangeError(`degrees of freedom above 0 are needed, not ${degrees}`);
  }
}
