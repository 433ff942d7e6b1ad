import type { Evidence } from "./evidence.ts";

/** How far a clock at the bench may run ahead before an entry is held to be from the future. */
export const clockSlack_ms = 60_000;

export function taken_ms(entry: Pick<Evidence, "at">): number {
  return Date.parse(entry.at);
}

/** Order in which things were done or read; what carries the same time keeps the order of the chain. */
export function byTaking(a: Pick<Evidence, "at" | "seq">, b: Pick<Evidence, "at" | "seq">): number {
  return taken_ms(a) - taken_ms(b) || a.seq - b.seq;
}

/** `2026-11-20 14:05`, as its author wrote it. */
export function inWords(at: string): string {
  return at.slice(0, 16).replace("T", " ");
}
