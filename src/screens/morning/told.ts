import type { MorningView } from "../../workshop/views.ts";
import { day, sameDay, time } from "../common/calendar.ts";
import { minutes } from "../common/number.ts";
import { words } from "./messages.ts";
import { hourOf } from "./strip.ts";

/** The strip in a sentence or two: how much is ripe, what comes next and how long until then. */
export function toldOf({ now, ripens }: Pick<MorningView, "now" | "ripens">): string {
  if (ripens.length === 0) return words.nothingRipens;
  const now_h = hourOf(now, now);
  const ahead = ripens.filter((item) => hourOf(item.at, now) > now_h);
  const ripe = ripens.length - ahead.length;
  const next = ahead.reduce<(typeof ahead)[number] | undefined>(
    (first, item) => (first && hourOf(first.at, now) <= hourOf(item.at, now) ? first : item),
    undefined,
  );
  const said = [
    ripe > 0 ? words.ripeNow(ripe) : "",
    next
      ? words.next(
          `${next.what}${next.unit ? `, ${words.unit(next.unit)}` : ""}`,
          sameDay(next.at, now) ? time(next.at) : `${day(next.at)} ${time(next.at)}`,
          minutes((hourOf(next.at, now) - now_h) * 60),
        )
      : "",
    next && ahead.length > 1 ? words.follow(ahead.length - 1) : "",
  ];
  return said.filter(Boolean).join(" ");
}
