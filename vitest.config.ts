import { defineConfig } from 'vitest/config';

/** These suites run the built program, which starts much faster than from source. */
const BUILD = './tests/support/build.ts';
/** A busy machine may take seconds for what a person would see at once. */
const PATIENT = { poll: { timeout: 10_000 } };

// Suites that need more than Node itself are projects of their own, so that a machine
// without a browser or a pseudo-terminal can still run the rest. Groups run one after the other:
// what listens to real time should not share the processor with what computes.
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/{unit,property,reference,golden}/**/*.test.ts'],
          testTimeout: 30_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          name: 'simulation',
          include: ['tests/simulation/**/*.test.ts'],
          testTimeout: 120_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          name: 'server',
          expect: PATIENT,
          sequence: { groupOrder: 1 },
          globalSetup: BUILD,
          include: ['tests/server/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'pty',
          expect: PATIENT,
          sequence: { groupOrder: 2 },
          globalSetup: BUILD,
          include: ['tests/pty/**/*.test.ts'],
          testTimeout: 60_000,
          // Boards are waited for, not computed with.
          maxWorkers: 2,
        },
      },
      {
        test: {
          name: 'firmware',
          expect: PATIENT,
          sequence: { groupOrder: 3 },
          globalSetup: BUILD,
          include: ['tests/firmware/**/*.test.ts'],
          testTimeout: 300_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: 'browser',
          expect: PATIENT,
          sequence: { groupOrder: 4 },
          globalSetup: BUILD,
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          // Pages are waited for as often as they are drawn.
          maxWorkers: 2,
        },
      },
    ],
  },
});
