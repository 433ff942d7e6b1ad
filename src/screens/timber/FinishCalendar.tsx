import type { FinishPlanView } from "../../workshop/timber/views.ts";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { capital } from "../common/sentence.ts";
import { planning as words } from "./messages.ts";

/** The finishing plan as a list to work down: coats that are on are ticked, and the soak stands where it may. */
export function FinishCalendar({ plan }: { readonly plan: FinishPlanView }) {
  const { steps, soak, who, coatsLeft, extraCoats, isAirAssumed, cautions } = plan;
  const rows = [
    ...steps
      .filter(({ kind }) => kind !== "turn")
      .map(({ at, what, kind, isDone }, i) => ({
        at,
        isDone,
        mark: isDone ? "✓" : kind === "coat" ? "○" : kind === "hard" ? "●" : "–",
        order: i,
        says: (
          <>
            {capital(what)}
            {isDone && <span className="visually-hidden"> {words.isOn}</span>}
          </>
        ),
      })),
    ...(soak
      ? [
          {
            at: soak.from,
            isDone: false,
            mark: soak.isAllowed ? "□" : "×",
            order: steps.length,
            says: (
              <>
                {words.soak(soak.place, dayAndTime(soak.to))}
                {!soak.isAllowed && <strong> {words.soakTooSoon(soak.why, dayAndTime(soak.earliest))}</strong>}
              </>
            ),
          },
        ]
      : []),
  ].toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at) || a.order - b.order);
  return (
    <>
      <p className="finish-lead">
        {coatsLeft > 0 ? words.coatsLeft(coatsLeft, who) : words.coatsOn}
        {extraCoats > 0 && ` ${words.extraCoats(extraCoats)}`}
      </p>
      <ol className="finish-steps">
        {rows.map(({ at, mark, isDone, says }) => (
          <li key={`${at} ${mark}`} className={isDone ? "is-done" : undefined}>
            <span className="finish-mark" aria-hidden="true">
              {mark}
            </span>
            <time dateTime={at} className={isDone ? undefined : "pencil"}>
              {dayAndTime(at)}
            </time>
            <span>{says}</span>
          </li>
        ))}
      </ol>
      {isAirAssumed && <p className="quiet small">{words.airAssumed}</p>}
      {coatsLeft > 0 &&
        cautions.map((caution) => (
          <p key={caution} className="caution">
            <CautionMark />
            <span>{caution}</span>
          </p>
        ))}
    </>
  );
}
