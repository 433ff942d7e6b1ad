import type { Submission } from "../claims/evidence.ts";

type Body = Submission extends infer S ? (S extends Submission ? Omit<S, "id" | "at" | "by"> : never) : never;

/** An entry as somebody wrote it down, and when. */
export type DemoEntry = Submission & { readonly recordedAt: string };

/** Written down as soon as it was read. */
export function entry(at: string, by: string, body: Body, id?: string): DemoEntry {
  return { ...(id === undefined ? {} : { id }), at, by, ...body, recordedAt: at } as DemoEntry;
}

/** Read one by one, and written down together in one sitting. */
export function writtenAt(recordedAt: string, entries: readonly DemoEntry[]): DemoEntry[] {
  return entries.map((read) => ({ ...read, recordedAt }));
}

/** Rounded as an instrument's display rounds. */
export function shown(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
