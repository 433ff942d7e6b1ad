import { resolve } from "node:path";
import { BadInput } from "../maths/badInput.ts";
import { rememberCopies } from "../store/copyPlaces.ts";
import { moveIntoDatabase, openStore, restoreBackup, takeBackup, thinBackups, verifyBackup } from "../store/index.ts";
import { People } from "../store/people.ts";
import { keepToOneself } from "./keepToOneself.ts";
import { databaseOf, dataFolder, type FolderOption } from "./workshopFolder.ts";

/** `stillglow backup FOLDER`: a copy of the workshop, open or not, read back before it counts. */
export async function backup(into: string, options: FolderOption & { readonly keepAll?: boolean }): Promise<void> {
  const now = new Date().toISOString();
  const place = resolve(into);
  const taken = await takeBackup(dataFolder(options), place, now, { database: databaseOf(options) });
  rememberCopies(dataFolder(options), place);
  keepToOneself(resolve(place, taken.name));
  const gone = options.keepAll ? [] : thinBackups(place, now);
  const old = gone.length === 0 ? "" : `\n${gone.length} older ${gone.length === 1 ? "copy" : "copies"} let go`;
  process.stdout.write(`${resolve(into, taken.name)}\n${inWords(taken)}${old}\n`);
}

/** `stillglow restore FOLDER`: puts a copy back as a new data folder, once every byte of it was read. */
export async function restore(from: string, options: FolderOption & { readonly copy?: string }): Promise<void> {
  const folder = dataFolder(options);
  const database = databaseOf(options);
  const put = await restoreBackup(resolve(from), folder, options.copy);
  keepToOneself(folder);
  const store = await openStore(folder);
  try {
    await new People(store.engine).endEverySession();
  } finally {
    await store.close();
  }
  if (database !== undefined) await moveIntoDatabase(folder, database, new Date().toISOString());
  process.stdout.write(`${folder}\n${inWords(put)}\n`);
}

/** `stillglow verify`: reads a workshop, or a copy of one, whole. */
export async function verify(
  options: FolderOption & { readonly head?: string; readonly backup?: string; readonly copy?: string },
): Promise<void> {
  if (options.backup !== undefined) {
    const read = await verifyBackup(resolve(options.backup), options.copy);
    process.stdout.write(`${resolve(options.backup, read.name)}\n${inWords(read)}\n`);
    return;
  }
  if (options.copy !== undefined) {
    throw new BadInput(
      "--copy",
      options.copy,
      "the name of a copy in the folder given as --backup",
      "add --backup FOLDER",
    );
  }
  const folder = dataFolder(options);
  const store = await openStore(folder, { write: false, database: databaseOf(options) });
  try {
    const read = await store.verify(options.head);
    if (!read.ok) {
      const where = read.id === undefined ? `after entry ${read.seq}` : `entry ${read.seq} (${read.id})`;
      process.stdout.write(`${folder}\nNot whole, ${where}: ${read.problem}.\nRestore the newest backup beside it.\n`);
      process.exitCode = 1;
      return;
    }
    process.stdout.write(`${folder}\n${inWords({ entries: read.entries, head: read.head })}\n`);
  } finally {
    await store.close();
  }
}

function inWords({ entries, head }: { readonly entries: number; readonly head: string }): string {
  return `whole: ${entries} ${entries === 1 ? "entry" : "entries"}, ending at ${head}`;
}
