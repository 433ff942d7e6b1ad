import { BadInput } from "../maths/badInput.ts";
import { moveIntoDatabase, moveIntoFolder } from "../store/index.ts";
import { databaseOf, dataFolder, type FolderOption } from "./workshopFolder.ts";

/** `stillglow move`: brings a workshop from its folder into a database, or with --back from there into the folder. */
export async function move(options: FolderOption & { readonly back?: boolean }): Promise<void> {
  const folder = dataFolder(options);
  const database = requiredDatabase(options);
  const now = new Date().toISOString();
  const { entries, head } = options.back
    ? await moveIntoFolder(database, folder, now)
    : await moveIntoDatabase(folder, database, now);
  const where = options.back
    ? `in ${folder} again`
    : "in the database; the folder keeps the ledger it had under another name";
  process.stdout.write(`whole: ${entries} ${entries === 1 ? "entry" : "entries"}, ending at ${head}, ${where}\n`);
}

export function requiredDatabase(options: FolderOption): string {
  const database = databaseOf(options);
  if (database !== undefined) return database;
  throw new BadInput(
    "--database",
    "nothing",
    "a connection string such as postgres://user@host:5432/shop",
    "give it, or put it into STILLGLOW_DATABASE",
  );
}
