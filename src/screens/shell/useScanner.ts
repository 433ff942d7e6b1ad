import { useEffect } from "react";

const withinBurst_ms = 60;
const shortestCode = 3;

/**
 * A barcode scanner types like a keyboard, only faster, and ends with Enter. A burst that lands on no field is taken
 * as a serial number, so that nobody has to aim first.
 */
export function useScanner(found: (code: string) => void): void {
  useEffect(() => {
    let code = "";
    let last_ms = 0;
    const onKey = (event: KeyboardEvent) => {
      const target = event.target as HTMLElement | null;
      if (target?.closest("input, textarea, select") || event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.timeStamp - last_ms > withinBurst_ms) code = "";
      last_ms = event.timeStamp;
      if (event.key === "Enter") {
        if (code.length >= shortestCode) {
          event.preventDefault();
          found(code);
        }
        code = "";
      } else if (event.key.length === 1) {
        code += event.key;
      }
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, [found]);
}
