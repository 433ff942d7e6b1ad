import type { DemoEntry } from "../entry.ts";

/** What happened in the years before, one sitting of somebody at their desk after another. */
export type Happening =
  | { readonly kind: "written"; readonly recordedAt: string; readonly entries: readonly DemoEntry[] }
  /** Valves were read through, and what follows from the readings is to be drawn. */
  | { readonly kind: "judge"; readonly recordedAt: string; readonly type: string; readonly valves: readonly string[] }
  /** A unit is ready to leave: the owner looks at its proofs, concedes what may be, and lets it go. */
  | {
      readonly kind: "release";
      readonly recordedAt: string;
      readonly unit: string;
      readonly by: string;
      readonly concedes: string;
    };

export function written(entries: readonly DemoEntry[]): Happening[] {
  const sittings = new Map<string, DemoEntry[]>();
  for (const one of entries) {
    const known = sittings.get(one.recordedAt);
    if (known) known.push(one);
    else sittings.set(one.recordedAt, [one]);
  }
  return [...sittings].map(([recordedAt, sitting]) => ({ kind: "written", recordedAt, entries: sitting }));
}
