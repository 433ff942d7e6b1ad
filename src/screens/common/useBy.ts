import { useSyncExternalStore } from "react";
import { useSession } from "../people/session.ts";

const key = "stillglow.by";
const listeners = new Set<() => void>();
let current: string | undefined;

function read(): string {
  if (current === undefined) {
    try {
      current = localStorage.getItem(key) ?? "";
    } catch {
      current = "";
    }
  }
  return current;
}

function write(by: string): void {
  current = by;
  try {
    localStorage.setItem(key, by);
  } catch {
    // A browser that keeps nothing still lets people write.
  }
  for (const told of listeners) told();
}

function listen(told: () => void): () => void {
  listeners.add(told);
  return () => listeners.delete(told);
}

/** Who writes: whoever is signed in; where nobody signs in, typed once, then known to every form on this machine. */
export function useBy(): readonly [string, (by: string) => void] {
  const { signedIn } = useSession();
  const typed = useSyncExternalStore(listen, read, () => "");
  return [signedIn?.person ?? typed, write];
}
