import type { CSSProperties } from "react";
import { Link } from "wouter";
import type { MorningView } from "../../workshop/views.ts";
import { day, sameDay, time } from "../common/calendar.ts";
import { words } from "./messages.ts";
import { hourOf, layStrip } from "./strip.ts";

/** The day as a paper strip with its hours; what ends by itself hangs from it where the clock finds it. */
export function DayStrip({ now, ripens }: Pick<MorningView, "now" | "ripens">) {
  const { from_h, to_h, placed, lanes } = layStrip(ripens, now);
  const span = to_h - from_h;
  const along = (hour: number) => (hour - from_h) / span;
  const every = span > 16 ? 2 : 1;
  const hours = Array.from({ length: span + 1 }, (_, i) => from_h + i);
  const at = (x: number, lane = 0) => ({ "--x": `${(x * 100).toFixed(2)}%`, "--lane": lane }) as CSSProperties;
  return (
    <div className="strip" style={{ "--lanes": lanes } as CSSProperties}>
      <div className="strip-paper" aria-hidden="true">
        {hours.map((hour) => (
          <span key={hour} className={`strip-hour${hour % 24 === 0 ? " strip-midnight" : ""}`} style={at(along(hour))}>
            {hour % every === 0 && hour !== to_h && hour !== from_h ? String(hour % 24).padStart(2, "0") : ""}
          </span>
        ))}
        <span className="strip-now" style={at(along(hourOf(now, now)))}>
          <span>{words.now}</span>
        </span>
      </div>
      <ol>
        {placed.map(({ item, along: x, lane, isFlipped }) => (
          <li
            key={`${item.at} ${item.what} ${item.unit}`}
            className={isFlipped ? "strip-flipped" : undefined}
            style={at(x, lane)}
          >
            <time dateTime={item.at}>{sameDay(item.at, now) ? time(item.at) : `${day(item.at)} ${time(item.at)}`}</time>
            <span>
              {item.what}
              {item.unit && (
                <>
                  {", "}
                  <Link href={`/unit/${encodeURIComponent(item.unit)}`}>{words.unit(item.unit)}</Link>
                </>
              )}
            </span>
          </li>
        ))}
      </ol>
    </div>
  );
}
