import { useState } from "react";
import type { Taken } from "./TakeFrom.tsx";

/**
 * The figure that was last taken from an instrument, for as long as its field still holds it: then the entry is written
 * down under that figure's own id, so that sending it twice writes it once.
 */
export function useTaken() {
  const [taken, setTaken] = useState<Taken>();
  return {
    take: setTaken,
    forget: () => setTaken(undefined),
    /** `{ id }` for the entry, or nothing when the figure was typed or changed since. */
    idOf: (typed: string, instrument: string): { readonly id?: string } =>
      taken !== undefined && taken.value === typed && taken.instrument === instrument ? { id: taken.id } : {},
  };
}
