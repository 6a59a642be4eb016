/** The limit: the true intervals given, the mean and its Type A evaluation taken over them. */
import { estimateInterval } from './estimate-interval.ts';
import type { Method } from './method.ts';

export const exactMethod: Method = {
  name: 'intervals known exactly',
  find: ({ plateaus, samples }) => ({
    plateaus: plateaus.map(({ start_s, end_s }) => ({
      start_s,
      end_s,
      declared_s: start_s,
      closed_s: end_s,
      ...estimateInterval(samples, { start_s, end_s }),
    })),
    takenBack: [],
    hopeless_s: [],
  }),
};
