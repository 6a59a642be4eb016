/** A program that writes to the data file and takes its time: until its standard input ends. */
import { dataFiles } from '../../../server/store/data-folder.ts';
import { openDatabase } from '../../../server/store/sqlite.ts';

const database = openDatabase(dataFiles(process.argv[2] ?? '').database);
database.exec('BEGIN IMMEDIATE');
process.stdout.write('held\n');
process.stdin.resume().on('end', () => {
  database.exec('ROLLBACK');
  database.close();
});
