import { useState } from "react";
import { post } from "../common/api.ts";

/** Asks a calculation when told to, and keeps its answer or the words of its refusal. */
export function useComputed<T>(name: string) {
  const [state, setState] = useState<{ readonly answer?: T; readonly error?: string; readonly busy: boolean }>({
    busy: false,
  });
  const ask = async (input: unknown) => {
    setState({ busy: true });
    try {
      setState({ answer: await post<T>(`/api/calc/${name}`, input), busy: false });
    } catch (error) {
      setState({ error: error instanceof Error ? error.message : String(error), busy: false });
    }
  };
  const refuse = (error: string) => setState({ error, busy: false });
  return { ...state, ask, refuse };
}
