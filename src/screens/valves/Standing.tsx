import type { ValveStanding } from "../../workshop/views.ts";
import { StateMark, StopSign } from "../common/StateSign.tsx";
import { standingWords } from "./messages.ts";

const marks = { use: "proven", hold: "undecided", unread: "open" } as const;

/** Whether a valve may be used, by sign and word; red, which means stop, is for the rejected alone. */
export function Standing({ standing }: { readonly standing: ValveStanding }) {
  return (
    <span className={`standing-sign standing-${standing}`}>
      {standing === "reject" ? <StopSign /> : <StateMark state={marks[standing]} />}
      {standingWords[standing]}
    </span>
  );
}
