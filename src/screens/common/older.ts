import { useSyncExternalStore } from "react";

let older: readonly string[] = [];
const listeners = new Set<() => void>();

function become(next: readonly string[]): void {
  older = next;
  for (const told of listeners) told();
}

/** Notes of an answer whether it is one of a moment ago, given while the one that holds is being worked out. */
export function noteOlder(path: string, isOlder: boolean): void {
  if (older.includes(path) === isOlder) return;
  become(isOlder ? [...older, path] : older.filter((one) => one !== path));
}

/** Paths of the answers that are of a moment ago. */
export const useOlder = (): readonly string[] =>
  useSyncExternalStore(
    (told) => {
      listeners.add(told);
      return () => listeners.delete(told);
    },
    () => older,
    () => older,
  );
