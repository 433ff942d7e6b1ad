import { existsSync, readFileSync, realpathSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { z } from "zod";

const noteFile = "copies.json";
const shape = z.object({ folders: z.array(z.string()) });

/** The folder beside a workshop's own in which its copies are kept, unless another is named. */
export const usualCopies = (dataFolder: string): string => `${dataFolder}-backups`;

/** Remembers where a copy was taken to, so that what is erased later can be looked for there. */
export function rememberCopies(dataFolder: string, into: string): void {
  const place = resolve(into);
  const known = noted(dataFolder);
  if (known.includes(place)) return;
  try {
    writeFileSync(join(dataFolder, noteFile), `${JSON.stringify({ folders: [...known, place] })}\n`, { mode: 0o600 });
  } catch {
    // Whoever may only read the folder can still take copies of it.
  }
}

/** Folders in which copies of a workshop were ever kept, as far as this one knows; some may be gone or unplugged. */
export function copyPlaces(dataFolder: string): readonly string[] {
  const usual = usualCopies(resolve(dataFolder));
  const all = [...noted(dataFolder), ...(existsSync(usual) ? [usual] : [])];
  return [...new Map(all.map((place) => [real(place), place])).values()];
}

function noted(dataFolder: string): readonly string[] {
  try {
    return shape.parse(JSON.parse(readFileSync(join(dataFolder, noteFile), "utf8"))).folders;
  } catch {
    return [];
  }
}

function real(place: string): string {
  try {
    return realpathSync(place);
  } catch {
    return place;
  }
}
