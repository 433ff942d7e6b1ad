import type { FinishPlanView } from "../../workshop/timber/views.ts";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { capital } from "../common/sentence.ts";
import { planning as words } from "./messages.ts";

/** The finishing plan as a list to work down: coats that are on are ticked, and the soak stands where it may. */
export function FinishCalendar({ plan }: { readonly plan: FinishPlanView }) {
  const { steps, soak, who, coatsLeft, extraCoats, isAirAssumed, cautions } = plan;
  const shown = steps.filter(({ kind }) => kind !== "turn");
  return (
    <>
      <p className="finish-lead">
        {coatsLeft > 0 ? words.coatsLeft(coatsLeft, who) : words.coatsOn}
        {extraCoats > 0 && ` ${words.extraCoats(extraCoats)}`}
      </p>
      <ol className="finish-steps">
        {shown.map(({ at, what, kind, isDone }) => (
          <li key={`${at} ${what}`} className={isDone ? "is-done" : undefined}>
            <span className="finish-mark" aria-hidden="true">
              {isDone ? "✓" : kind === "coat" ? "○" : "—"}
            </span>
            <time dateTime={at} className={isDone ? undefined : "pencil"}>
              {dayAndTime(at)}
            </time>
            <span>
              {capital(what)}
              {isDone && <span className="visually-hidden"> {words.isOn}</span>}
            </span>
          </li>
        ))}
        {soak && (
          <li>
            <span className="finish-mark" aria-hidden="true">
              {soak.isAllowed ? "○" : "×"}
            </span>
            <time dateTime={soak.from}>{dayAndTime(soak.from)}</time>
            <span>
              {words.soak(soak.place, dayAndTime(soak.to))}
              {!soak.isAllowed && <strong> {words.soakTooSoon(soak.why, dayAndTime(soak.earliest))}</strong>}
            </span>
          </li>
        )}
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
