import { type ReactNode, useEffect } from "react";
import type { SessionView } from "../../workshop/people/views.ts";
import { nobody } from "./examples.ts";
import { pretend } from "./session.ts";

/** Shows an example as whoever is signed in sees it. */
export function Pretending({ session, children }: { readonly session: SessionView; readonly children: ReactNode }) {
  useEffect(() => {
    pretend(session);
    return () => pretend(nobody);
  }, [session]);
  return children;
}
