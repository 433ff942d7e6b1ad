import { useQueryClient } from "@tanstack/react-query";
import { useState } from "react";

interface Sending {
  readonly busy: boolean;
  readonly said?: string;
  readonly error?: string;
}

/** Sends once at a time, then fetches afresh what the screens show. What went wrong stays in words beside the form. */
export function useSending() {
  const client = useQueryClient();
  const [state, setState] = useState<Sending>({ busy: false });
  const send = async (work: () => Promise<string>): Promise<boolean> => {
    setState({ busy: true });
    try {
      const said = await work();
      setState({ busy: false, said });
      await client.invalidateQueries();
      return true;
    } catch (error) {
      setState({ busy: false, error: error instanceof Error ? error.message : String(error) });
      return false;
    }
  };
  const refuse = (error: string) => setState({ busy: false, error });
  return { ...state, send, refuse };
}
