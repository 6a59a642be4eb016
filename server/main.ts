#!/usr/bin/env node
/** The command line: picks the command, maps what went wrong to words and an exit code. */
import { exitCodeOf, InputError, sentenceOf } from './commands/exit-errors.ts';
import { VERSION } from './version.ts';

/** Each is loaded when it is asked for: a short one does not wait for all that the server needs. */
const COMMANDS = {
  serve: async () => (await import('./commands/serve.ts')).serve,
  boards: async () => (await import('./commands/boards.ts')).boards,
  plateaus: async () => (await import('./commands/plateaus.ts')).plateaus,
  compare: async () => (await import('./commands/compare.ts')).compare,
  predict: async () => (await import('./commands/predict.ts')).predict,
  fit: async () => (await import('./commands/fit.ts')).fit,
  replay: async () => (await import('./commands/replay.ts')).replay,
  export: async () => (await import('./commands/export.ts')).exportSession,
  air: async () => (await import('./commands/air.ts')).air,
} as const;

const HELP = `Stillmark ${VERSION}: finds the steady plateaus of a bench-top turbine experiment and logs them.

Usage:
  stillmark serve [--port N] [--host ADDRESS] [--lan] [--data DIR]
                  [--source serial:PATH | meters | simulated[:SEED] | replay:FILE] [--speed X]
                  [--plan FILE.zip | plan.json]
        reads the board (or the simulated rig when there is none), logs each plateau as a trial
        and shows the page; stop it with Ctrl-C. replay: a table of samples, or a session's file;
        --plan: a session without a plan begins with the one in this file, another group's say
  stillmark boards [--json]
        lists the serial devices that this computer sees
  stillmark plateaus FILE.csv|- [--json]
        finds the plateaus of a recording (columns time_s, voltage_V, current_A, windSpeed_mps) and
        says each as soon as it has ended; -: of what another program pipes in
  stillmark compare FILE.csv --factor COLUMN --response COLUMN [--block COLUMN] [--second COLUMN]
                    [--order COLUMN] [--uncertainty COLUMN] [--json]
        says which level of a factor gives the most, and how sure that is (one row a trial);
        --second: another factor, --order: the trials' order in time, to see a drift
  stillmark predict RIG.json [--json]
        says what a rig should give at each blade angle, by a model, before anyone builds it
  stillmark fit FILE.csv --part generator|lamp [--speed held|free] [--json]
        what readings of the generator (rotorSpeed_rpm,voltage_V,current_mA) or of the lamp say of
        it, for RIG.json
  stillmark replay --data DIR [--session ID] | FILE.zip [--json]
        derives the stored trials again from the stored input and reports any difference
  stillmark export --data DIR [--session ID] --to DIR|FILE.zip [--licence NAME]
        one session (the newest, if none is named) as a Data Package: tables, samples, plan, and
        all that is needed to derive it again
  stillmark air --temperature DEGC (--pressure PA | --altitude M) --humidity FRACTION [--json]
        how heavy the air is, and how well that is known; humidity 0.5 is 50 %
  stillmark help | --version

Exit codes: 0 done · 1 a fault of ours · 2 wrong arguments or input · 3 something is in use · 4 replay differs`;

async function main(argv: readonly string[]): Promise<number> {
  const [name, ...rest] = argv;
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    console.log(HELP);
    return 0;
  }
  if (name === '--version') {
    console.log(VERSION);
    return 0;
  }
  if (!Object.hasOwn(COMMANDS, name)) {
    const known = Object.keys(COMMANDS).join(', ');
    throw new InputError('unknown-command', `There is no command "${name}". The commands are ${known}.`);
  }
  if (rest.includes('--help')) {
    console.log(HELP);
    return 0;
  }
  const command = await COMMANDS[name as keyof typeof COMMANDS]();
  return command(rest);
}

main(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    console.error(sentenceOf(error));
    process.exitCode = exitCodeOf(error);
  },
);
