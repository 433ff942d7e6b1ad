import type { FinishingView } from "../../workshop/timber/views.ts";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { finishing as words } from "./messages.ts";

/** What the newest coat lets be done next, in the order of its moments. */
export function Finishing({ view }: { readonly view: FinishingView }) {
  const { nextCoat, handle, hard, heatFrom, hardWithNext, cautions } = view;
  const moments = [
    ...(nextCoat === undefined ? [] : [{ at: nextCoat, what: words.nextCoat }]),
    ...(handle === undefined || handle === hard ? [] : [{ at: handle, what: words.handle }]),
    { at: hard, what: handle === hard ? words.handleAndHard : words.hard },
    { at: heatFrom, what: words.heat },
  ].toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at));
  return (
    <>
      <dl className="finishing pencil">
        {moments.map(({ at, what }) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <time dateTime={at}>{dayAndTime(at)}</time>
            </dd>
          </div>
        ))}
      </dl>
      {hardWithNext !== undefined && <p className="quiet small">{words.withNext(dayAndTime(hardWithNext))}</p>}
      {nextCoat === undefined && <p className="quiet small">{words.noAir}</p>}
      {cautions.map((caution) => (
        <p key={caution} className="caution">
          <CautionMark />
          <span>{caution}</span>
        </p>
      ))}
    </>
  );
}
