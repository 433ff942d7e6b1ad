import { useIsFetching } from "@tanstack/react-query";
import { useEffect, useState } from "react";
import "./behind.css";
import { common } from "./messages.ts";

/** A shorter wait is over before it could be read. */
const noticed_ms = 300;

/**
 * Says that something was written down since what stands on the page was worked out, until it is worked out anew.
 * Meanwhile computed figures are not blue: only what holds now is.
 */
export function Behind() {
  const older = useIsFetching({ predicate: ({ state }) => state.isInvalidated && state.data !== undefined });
  const isBehind = older > 0;
  const [isSaid, setSaid] = useState(false);
  useEffect(() => {
    if (!isBehind) return setSaid(false);
    const timer = setTimeout(() => setSaid(true), noticed_ms);
    return () => clearTimeout(timer);
  }, [isBehind]);
  return <div role="status">{isSaid && <p className="behind">{common.behind}</p>}</div>;
}
