import type { Column } from "./ask.ts";

/** Columns chosen before for a table with the same head are proposed again. */
const keyOf = (kind: string, head: readonly string[]) => `stillglow.columns.${kind}.${head.join("|")}`;

export function recall(kind: string, head: readonly string[]): Readonly<Record<string, string>> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(kind, head)) ?? "{}");
    return typeof kept === "object" && kept !== null ? (kept as Record<string, string>) : {};
  } catch {
    return {};
  }
}

export function keep(kind: string, head: readonly string[], called: Readonly<Record<string, string>>): void {
  try {
    localStorage.setItem(keyOf(kind, head), JSON.stringify(called));
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}

/** Heads that stand for no column of their own name, so that somebody has to say what they are. */
export function strangers(head: readonly string[], columns: readonly Column[]): readonly string[] {
  const known = new Set(columns.map(({ name }) => name.toLowerCase()));
  const free = columns.filter(({ leaf }) => leaf === "json").map(({ name }) => `${name}.`);
  return head.filter(
    (one) =>
      one !== "" && one !== "body" && !known.has(one.toLowerCase()) && !free.some((start) => one.startsWith(start)),
  );
}

/** Needed columns that neither the file's heads nor what was said of them give. */
export function lacking(
  head: readonly string[],
  columns: readonly Column[],
  called: Readonly<Record<string, string>>,
): readonly Column[] {
  const given = new Set(head.map((one) => (called[one] ?? one).toLowerCase()));
  if (given.has("body")) return [];
  return columns.filter(({ name, isNeeded }) => isNeeded && !given.has(name.toLowerCase()));
}
