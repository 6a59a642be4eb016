import { listBoards } from '../sources/boards.ts';
import { readArguments } from './arguments.ts';

/** `stillmark boards`: the serial devices seen. */
export async function boards(argv: readonly string[]): Promise<number> {
  const { values } = readArguments(argv, { json: { type: 'boolean' } }, 0);
  const found = await listBoards();
  if (values.json) {
    console.log(JSON.stringify({ boards: found }, null, 2));
  } else if (found.length === 0) {
    console.log('No serial device seen. Plug the board in with a cable that carries data, then try again.');
  } else {
    for (const board of found) console.log(`${board.path}\t${board.name}`);
  }
  return 0;
}
