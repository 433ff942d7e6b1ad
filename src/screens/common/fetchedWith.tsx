import { type ComponentType, lazy } from "react";
import type { TableName } from "../languages/catalogue.ts";
import { bringWords } from "../languages/chosen.ts";
import { common } from "./messages.ts";
import { TroubleNote } from "./Waiting.tsx";

/**
 * A part of the page that is fetched when it is first shown, and before it the tables of messages that it speaks from,
 * so that none of them is ever said in another language first.
 */
export function fetchedWith<Props extends object>(
  tables: readonly TableName[],
  load: () => Promise<{ readonly default: ComponentType<Props> }>,
) {
  return lazy(async () => {
    try {
      await bringWords(tables);
      return await load();
    } catch {
      // Stopped for a moment, or renewed since this page was opened; opening it anew fetches what is there now.
      return { default: NotFetched };
    }
  });
}

const NotFetched = () => (
  <TroubleNote error={new Error(common.notFetched)} again={() => window.location.reload()} alone />
);
