import type { SoakSortView, SoaksView } from "../workshop/production/soakViews.ts";

const when = (instant: string) => instant.slice(0, 16).replace("T", " ");
const figure = (value: number) => String(Number(value.toPrecision(3)));

/** What goes on by itself, and what each sort of soak's hours say. */
export function soakWords({ running, sorts, currency = "", now }: SoaksView): string {
  const going = running.map(({ what, things, place, at, ripe }) => {
    const names = things.map(({ thing, slot }) => (slot === undefined ? thing : `${thing} (slot ${slot})`));
    const some = names.length > 6 ? `${names.slice(0, 5).join(", ")} and ${names.length - 5} more` : names.join(", ");
    const stands = Date.parse(ripe) <= Date.parse(now) ? `ripe since ${when(ripe)}` : `ripe ${when(ripe)}`;
    return `  ${what}, ${place}: ${some}; begun ${when(at)}, ${stands}`;
  });
  return [
    ...(going.length > 0 ? ["Going on now:", ...going] : ["Nothing that was written down goes on now."]),
    ...sorts.flatMap((sort) => ["", ...sortWords(sort, currency)]),
  ].join("\n");
}

function sortWords(
  { what, pieces, failures, soaked_h, today_h, curve, atMost, ...rest }: SoakSortView,
  currency: string,
) {
  const money = (cents: number) => `${(cents / 100).toFixed(2)} ${currency}`.trim();
  const head = `${what}: ${pieces} pieces, ${failures} failed, ${figure(soaked_h)} h in all; begun for ${figure(today_h)} h.`;
  if (atMost !== undefined)
    return [head, `  At most ${figure(100 * atMost)} in 100 would fail, in 19 of 20 such series.`];
  const steps = curve.map(
    ({ hours, survival, low, high }) =>
      `  ${figure(hours)} h: ${figure(100 * survival)} % still good (${figure(100 * low)} to ${figure(100 * high)})`,
  );
  const { costs, hoursThatPay, againstToday } = rest;
  if (!costs || hoursThatPay === undefined || !againstToday)
    return [head, ...steps, "  What pays is told with rates and returns."];
  const { saving_cents, low_cents, high_cents, state } = againstToday;
  const verdict =
    hoursThatPay === today_h
      ? `  Today's ${figure(today_h)} h pay as well as any.`
      : state === "saves"
        ? `  ${figure(hoursThatPay)} h pay best: ${money(saving_cents)} a piece against today (${money(low_cents)} to ${money(high_cents)}).`
        : `  Not told: ${figure(hoursThatPay)} h against today's would be ${money(low_cents)} to ${money(high_cents)} a piece.`;
  return [
    head,
    ...steps,
    `  An hour costs ${money(costs.hour_cents)} a piece, a fault that gets past ${money(costs.escape_cents)}.`,
    verdict,
  ];
}
