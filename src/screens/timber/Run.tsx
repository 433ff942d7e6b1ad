import { Link } from "wouter";
import type { RunView } from "../../workshop/timber/views.ts";
import { dayAndTime } from "../common/calendar.ts";
import { Measured } from "../common/Measured.tsx";
import { fixed } from "../common/number.ts";
import { runs as words } from "./messages.ts";
import { DayScale, OutRule, spanFor } from "./OutRule.tsx";

/** Pieces of one run, those that dry alike together, each with its own hour to come out. */
export function Run({ run, from, title }: { readonly run: RunView; readonly from: string; readonly title: string }) {
  const pieces = run.groups.flatMap((group) => group.pieces);
  const span_days = spanFor(
    from,
    pieces.map(({ out }) => out.to ?? out.at),
  );
  return (
    <div className="run">
      <h3>{title}</h3>
      {run.groups.map((group) => {
        const over = group.pieces.filter(({ isOverDryIfLeft }) => isOverDryIfLeft);
        return (
          <section key={`${group.thickness_mm} ${group.target_pct}`}>
            <p className="batch-name">
              <strong>{words.group(group.thickness_mm)}</strong>{" "}
              <span className="pencil">{words.to(fixed(group.target_pct, 1))}</span>
              {group.unit && (
                <span className="quiet">
                  , {group.destination ? `${group.destination}, ` : ""}
                  {group.unit}
                </span>
              )}
            </p>
            <ul className="run-pieces">
              {group.pieces.map(({ piece, out, planned }) => (
                <li key={piece}>
                  <Link href={`/timber/piece/${encodeURIComponent(piece)}`}>{piece}</Link>
                  <span>
                    <span className="pencil">{words.out(dayAndTime(out.at))}</span>
                    {out.to === undefined && <span className="small run-more"> {words.outOpen}</span>}
                    {planned && (
                      <span className="small quiet run-more"> {words.planned(planned.to, dayAndTime(planned.at))}</span>
                    )}
                  </span>
                  <Measured first={420}>
                    {(width) => <OutRule from={from} span_days={span_days} out={out} width={width} />}
                  </Measured>
                </li>
              ))}
            </ul>
            {over.length > 0 && (
              <p className="timber-note small">
                {words.over(over.length === group.pieces.length ? "" : over.map(({ piece }) => piece).join(", "), over)}
              </p>
            )}
          </section>
        );
      })}
      <div className="run-pieces run-scale">
        <span />
        <span />
        <Measured first={420}>{(width) => <DayScale from={from} span_days={span_days} width={width} />}</Measured>
      </div>
    </div>
  );
}
