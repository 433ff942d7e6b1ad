import { useIsFetching, useQueryClient } from "@tanstack/react-query";
import { useEffect, useState } from "react";
import "./behind.css";
import { common } from "./messages.ts";
import { noteOlder, useOlder } from "./older.ts";

/** A shorter wait is over before it could be read. */
const noticed_ms = 300;
/** An answer of a moment ago is asked for again so often, until it holds. */
const again_ms = 400;

/**
 * Says that something was written down since what stands on the page was worked out, until it is worked out anew.
 * Meanwhile computed figures are not blue: only what holds now is.
 */
export function Behind() {
  const client = useQueryClient();
  const fetching = useIsFetching({ predicate: ({ state }) => state.isInvalidated && state.data !== undefined });
  const older = useOlder();
  const isBehind = fetching > 0 || older.length > 0;
  useEffect(() => {
    if (older.length === 0) return;
    const timer = setInterval(() => {
      for (const path of older) {
        const isShown =
          client
            .getQueryCache()
            .find({ queryKey: [path] })
            ?.isActive() ?? false;
        if (isShown) void client.refetchQueries({ queryKey: [path], exact: true }, { cancelRefetch: false });
        else noteOlder(path, false);
      }
    }, again_ms);
    return () => clearInterval(timer);
  }, [client, older]);
  const [isSaid, setSaid] = useState(false);
  useEffect(() => {
    if (!isBehind) return setSaid(false);
    const timer = setTimeout(() => setSaid(true), noticed_ms);
    return () => clearTimeout(timer);
  }, [isBehind]);
  return <div role="status">{isSaid && <p className="behind">{common.behind}</p>}</div>;
}
