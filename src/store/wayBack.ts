import { existsSync, readdirSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { copyPlaces } from "./copyPlaces.ts";
import { StoreCorrupted } from "./storeErrors.ts";

/** What was found wrong with a folder's ledger, and the command that puts its newest backup back beside it. */
export function withWayBack(folder: string, fault: StoreCorrupted): StoreCorrupted {
  return new StoreCorrupted(`${fault.message}\n${wayBack(resolve(folder))}`, { cause: fault });
}

function wayBack(folder: string): string {
  const newest = copyPlaces(folder)
    .flatMap((place) => copiesIn(place).map((name) => ({ place, name })))
    .toSorted((a, b) => (a.name < b.name ? -1 : 1))
    .at(-1);
  const into = freeBeside(folder);
  if (!newest) {
    return `No backup of it is known here. Where there is one: stillglow restore ITS-FOLDER --data ${word(into)}`;
  }
  return `The newest backup is ${newest.name} in ${newest.place}: stillglow restore ${word(newest.place)} --copy ${newest.name} --data ${word(into)}`;
}

function copiesIn(place: string): readonly string[] {
  try {
    return readdirSync(place).filter((name) => !name.startsWith(".") && existsSync(join(place, name, "backup.json")));
  } catch {
    return [];
  }
}

function freeBeside(folder: string): string {
  for (let i = 1; ; i += 1) {
    const free = join(folder, "..", `${basename(folder)}-restored${i === 1 ? "" : `-${i}`}`);
    if (!existsSync(free)) return free;
  }
}

/** As a shell reads it as one word. */
const word = (text: string) => (/^[\w./:@%+-]+$/.test(text) ? text : `'${text.replaceAll("'", "'\\''")}'`);
