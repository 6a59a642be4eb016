import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** These suites run the built program, which starts much faster than from source. */
const BUILD = './tests/support/build.ts';
/** A busy machine may take seconds for what a person would see at once. */
const PATIENT = { poll: { timeout: 10_000 } };
/** Also on two processors, where the default is one file at a time: most suites wait half of the time. */
const AT_ONCE = { maxWorkers: 2 };
/** Those that mostly wait, for a process, a disk or a board's real time; first, beside types and lint. */
const WAITING = { maxWorkers: 3, sequence: { groupOrder: 0 } };

/** Files that take a minute begin first, so that the others fill the time beside them. */
const LONG = /(emulated-boards|whole-job|kill|page-access|plan-layout|wiring|plan-form)\.test\.ts$/;
class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const isLong = ({ moduleId }: TestSpecification): boolean => LONG.test(moduleId);
    return [...files.filter(isLong), ...files.filter((file) => !isLong(file))];
  }
}

// Suites that need more than Node itself are projects of their own, so that a machine
// without a browser or a pseudo-terminal can still run the rest. Groups run one after the other:
// what listens to real time should not share the processor with what computes.
export default defineConfig({
  test: {
    sequence: { sequencer: LongFirst },
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/{unit,property,reference,golden}/**/*.test.ts'],
          testTimeout: 30_000,
          sequence: { groupOrder: 1 },
          // What is pure needs no world of its own for each file: half of the time.
          isolate: false,
          ...AT_ONCE,
        },
      },
      {
        test: {
          name: 'simulation',
          include: ['tests/simulation/**/*.test.ts'],
          testTimeout: 120_000,
          sequence: { groupOrder: 1 },
          ...AT_ONCE,
        },
      },
      {
        test: {
          name: 'server',
          expect: PATIENT,
          globalSetup: BUILD,
          include: ['tests/server/**/*.test.ts'],
          testTimeout: 60_000,
          ...WAITING,
        },
      },
      {
        test: {
          name: 'pty',
          expect: PATIENT,
          globalSetup: BUILD,
          include: ['tests/pty/**/*.test.ts'],
          testTimeout: 60_000,
          ...WAITING,
        },
      },
      {
        test: {
          name: 'firmware',
          expect: PATIENT,
          sequence: { groupOrder: 2 },
          globalSetup: BUILD,
          include: ['tests/firmware/**/*.test.ts'],
          testTimeout: 300_000,
          // Emulated boards and those compiled for this computer keep real time.
          fileParallelism: false,
        },
      },
      {
        test: {
          name: 'browser',
          expect: PATIENT,
          sequence: { groupOrder: 3 },
          globalSetup: BUILD,
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          ...AT_ONCE,
        },
      },
    ],
  },
});
