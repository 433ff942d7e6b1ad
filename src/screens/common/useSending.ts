import { useQueryClient } from "@tanstack/react-query";
import { useState } from "react";

interface Sending {
  readonly busy: boolean;
  readonly said?: string;
  readonly error?: string;
}

/**
 * Sends once at a time. The form is free as soon as the workshop has it on disk; what the screens show is fetched anew
 * behind it, and `Behind` says so for as long as it is older. What went wrong stays in words beside the form.
 */
export function useSending() {
  const client = useQueryClient();
  const [state, setState] = useState<Sending>({ busy: false });
  const send = async (work: () => Promise<string>): Promise<boolean> => {
    setState({ busy: true });
    try {
      const said = await work();
      setState({ busy: false, said });
    } catch (error) {
      setState({ busy: false, error: error instanceof Error ? error.message : String(error) });
      return false;
    }
    void client.invalidateQueries();
    return true;
  };
  const refuse = (error: string) => setState({ busy: false, error });
  return { ...state, send, refuse };
}
