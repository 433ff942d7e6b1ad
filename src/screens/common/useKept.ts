import { useState } from "react";

/** A choice kept on this machine from one visit to the next, such as the meter that lies at this bench. */
export function useKept(key: string, first: string): readonly [string, (now: string) => void] {
  const [value, setValue] = useState(() => {
    try {
      return localStorage.getItem(key) ?? first;
    } catch {
      return first;
    }
  });
  const change = (now: string) => {
    setValue(now);
    try {
      localStorage.setItem(key, now);
    } catch {
      // A browser that keeps nothing asks again next time.
    }
  };
  return [value, change];
}
