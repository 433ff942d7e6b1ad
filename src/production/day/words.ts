import type { DayInput, Job } from "./day.ts";

/** Why a check is worth its minutes, in one sentence with the numbers. */
export function whyOf(
  { worth, hands_min, due }: Job,
  { hour_cents, currency }: Pick<DayInput, "hour_cents" | "currency">,
): string {
  const { chief, saves_h, others } = worth;
  if (!chief) return due < Number.POSITIVE_INFINITY ? "next by its date." : "work to go on with.";
  const { odds, finds, now_h, later_h, records } = chief;
  const counted =
    records && records.of > 0 ? ` (${records.found} of ${records.of} so far)` : " (a guess: nothing counted yet)";
  const there = `${inWords(odds.odds)} has ${chief.fault}${records ? counted : ""}`;
  const finding = finds.odds >= 0.995 ? "this finds it" : `this finds ${Math.round(100 * finds.odds)} in 100 of them`;
  const money =
    hour_cents === undefined
      ? ""
      : ` (${((saves_h * hour_cents) / 100).toFixed(2)}${currency ? ` ${currency}` : " in money"})`;
  const more = others === 0 ? "" : `, ${others} rarer ${others === 1 ? "fault" : "faults"} included`;
  const [now, later] = toldApart(now_h, later_h);
  const costs = now === later ? `found now or later it costs ${now}` : `found now it costs ${now} instead of ${later}`;
  return `${there}, ${finding}, and ${costs}: ${plainHours(saves_h)} saved on average${money}${more} for ${round(hands_min)} min of hands.`;
}

function inWords(odds: number): string {
  if (odds >= 0.5) return `${Math.round(100 * odds)} in 100`;
  if (odds <= 0) return "none";
  return `1 in ${Math.round(1 / odds)}`;
}

/** Two lots of hours, to as many digits as it takes to see which is less, up to four. */
function toldApart(one_h: number, other_h: number): readonly [string, string] {
  const told = [2, 3, 4].map((digits) => [plainHours(one_h, digits), plainHours(other_h, digits)] as const);
  return told.find(([one, other]) => one !== other) ?? told[0]!;
}

export const round = (x: number) => Number(x.toPrecision(2));
export function plainHours(h: number, digits = 2): string {
  return h > 0 && h < 1
    ? h < 1 / 60
      ? "under 1 min"
      : `${Math.round(60 * h)} min`
    : `${Number(h.toPrecision(h >= 100 ? Math.max(3, digits) : digits))} h`;
}
