import type { RipensView } from "../../workshop/timber/views.ts";
import { dayAndTime } from "../common/calendar.ts";
import { fixed } from "../common/number.ts";
import { planning as words } from "./messages.ts";

/** What a piece will hold as each stage of its plan ends. */
export function Ripens({ ripens }: { readonly ripens: readonly RipensView[] }) {
  return (
    <ol className="ripens">
      {ripens.map(({ place, from, to, mean_pct, low_pct, high_pct, surface_pct, core_pct, leftUndone }) => (
        <li key={from}>
          <span>
            <strong>{place}</strong>{" "}
            <span className="quiet">
              {dayAndTime(from)} {words.until} <time dateTime={to}>{dayAndTime(to)}</time>
            </span>
          </span>
          <span className="pencil figure">
            {fixed(mean_pct, 1)} ± {fixed((high_pct - low_pct) / 2, 1)} %
          </span>
          <span className="small">
            {words.skinCore(fixed(surface_pct, 1), fixed(core_pct, 1))}
            {leftUndone > 0.005 && <span className="quiet">; {words.undone(Math.round(100 * leftUndone))}</span>}
          </span>
        </li>
      ))}
    </ol>
  );
}
