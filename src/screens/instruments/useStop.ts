import { post } from "../common/api.ts";
import { common } from "../common/messages.ts";
import { useBy } from "../common/useBy.ts";
import { useSending } from "../common/useSending.ts";
import { linked as words } from "./linkMessages.ts";

/** Ends a log before its time, under whoever sits at this machine. */
export function useStop(log: string) {
  const [by, setBy] = useBy();
  const sending = useSending();
  const stop = () => {
    if (by.trim() === "") return sending.refuse(`${common.by}: ${common.needed}`);
    void sending.send(async () => {
      await post(`/api/instruments/logs/${encodeURIComponent(log)}/stop`, { by: by.trim() });
      return words.stopped;
    });
  };
  return { sending, stop, by, setBy };
}
