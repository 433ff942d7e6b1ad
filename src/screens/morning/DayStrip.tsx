import type { CSSProperties } from "react";
import { Link } from "wouter";
import type { MorningView } from "../../workshop/views.ts";
import { day, sameDay, time } from "../common/calendar.ts";
import { capital } from "../common/sentence.ts";
import { words } from "./messages.ts";
import { hourOf, layStrip } from "./strip.ts";

/** Letters that surely fit into one line of a label. */
const letters = 26;

/** The day as a paper strip with its hours; what ends by itself hangs from it where the clock finds it. */
export function DayStrip({ now, ripens }: Pick<MorningView, "now" | "ripens">) {
  const { from_h, to_h, placed, lanes } = layStrip(ripens, now);
  const longest = ripens.reduce((most, { what, unit = "" }) => Math.max(most, what.length + unit.length + 7), 0);
  const lines = 1 + Math.ceil(longest / letters);
  const now_h = hourOf(now, now);
  const span = to_h - from_h;
  const along = (hour: number) => (hour - from_h) / span;
  const every = span > 16 ? 2 : 1;
  const hours = Array.from({ length: span + 1 }, (_, i) => from_h + i);
  const at = (x: number, lane = 0) => ({ "--x": `${(x * 100).toFixed(2)}%`, "--lane": lane }) as CSSProperties;
  return (
    <div className="strip" style={{ "--lanes": lanes, "--lines": lines } as CSSProperties}>
      <div className="strip-paper" aria-hidden="true">
        {hours.map((hour) => (
          <span key={hour} className={`strip-hour${hour % 24 === 0 ? " strip-midnight" : ""}`} style={at(along(hour))}>
            {hour % every === 0 && hour !== to_h && hour !== from_h && Math.abs(hour - now_h) > 0.7
              ? String(hour % 24).padStart(2, "0")
              : ""}
          </span>
        ))}
        <span className="strip-now" style={at(along(now_h))}>
          <span>{words.now}</span>
        </span>
      </div>
      <ol>
        {placed.map(({ item, along: x, lane }, i) => (
          <li key={`${item.at} ${item.what} ${item.unit}`} style={{ ...at(x, lane), zIndex: placed.length - i }}>
            <div className="strip-tag">
              <time dateTime={item.at}>
                {sameDay(item.at, now) ? time(item.at) : `${day(item.at)} ${time(item.at)}`}
              </time>
              <span>
                {hourOf(item.at, now) <= now_h && <strong>{words.ripe}: </strong>}
                {capital(item.what)}
                {item.unit && (
                  <>
                    {", "}
                    <Link href={`/unit/${encodeURIComponent(item.unit)}`}>{words.unit(item.unit)}</Link>
                  </>
                )}
              </span>
            </div>
          </li>
        ))}
      </ol>
    </div>
  );
}
