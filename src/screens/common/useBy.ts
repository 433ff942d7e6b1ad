import { useState } from "react";

const key = "stillglow.by";

/** Who writes, by role; remembered on this machine so that it is typed once. */
export function useBy(): readonly [string, (by: string) => void] {
  const [by, setBy] = useState(() => {
    try {
      return localStorage.getItem(key) ?? "";
    } catch {
      return "";
    }
  });
  const remember = (next: string) => {
    setBy(next);
    try {
      localStorage.setItem(key, next);
    } catch {
      // A browser that keeps nothing still lets people write.
    }
  };
  return [by, remember];
}
