import Table from "cli-table3";
import { quantityWords } from "../measurement/quantityWords.ts";
import type { InstrumentsView } from "../workshop/instruments/views.ts";
import type { ChecksView, CostsView, ProposalView } from "../workshop/production/views.ts";
import type { SafetyLimitsView, SafetySheetView } from "../workshop/safety/views.ts";
import type { MorningView } from "../workshop/views.ts";

const plain = { head: [], border: [] };
const clock = (instant: string) => instant.slice(11, 16);
const when = (instant: string) => instant.slice(0, 16).replace("T", " ");
const money = (cents: number, currency = "") => `${(cents / 100).toFixed(2)} ${currency}`.trim();
const figure = (value: number) => String(Number(value.toPrecision(4)));

/** The day of each pair of hands, and what to begin before going home. */
export function dayWords({ now, hands, blocked = [], ripens }: MorningView): string {
  const lines = [`${when(now)}: ${ripens.length} ripen by themselves within a day.`];
  for (const { person, home, next, beforeHome = [] } of hands) {
    lines.push("", `${person}${home ? `, until ${clock(home)}` : ", not at work any more today"}`);
    if (next.length === 0) lines.push("  nothing waits for these hands");
    next.forEach((one, i) => {
      const at = one.start ? `${clock(one.start)}  ` : "";
      lines.push(
        `  ${at}${one.unit}  ${one.title}  (${one.hands_min} min${one.danger === "none" ? "" : `, ${one.danger}`})`,
      );
      if (i === 0 && one.why) lines.push(`         ${one.why}`);
    });
    for (const one of beforeHome) {
      lines.push(`  by ${clock(one.latest)}, before going home: ${one.unit}  ${one.title}; ready ${when(one.ripe)}`);
    }
  }
  if (blocked.length > 0) lines.push("", "Nobody can do today:");
  for (const { unit, title, why } of blocked) lines.push(`  ${unit}  ${title}: ${why}`);
  return lines.join("\n");
}

/** Instruments with where they stand, and the proofs that fell with them. */
export function instrumentWords({ instruments }: InstrumentsView): string {
  if (instruments.length === 0) return "No instrument is written down; until one is, no reading can count.";
  const table = new Table({
    style: plain,
    head: ["instrument", "stands", "trials", "drifts", "rest on it", "fell with it"],
  });
  for (const { title, standing, trials, chart, restsOnIt, reopened } of instruments) {
    table.push([
      title,
      standing.state,
      trials.length,
      chart ? (chart.drifts ? "yes" : "no") : "",
      restsOnIt,
      reopened.length,
    ]);
  }
  const fallen = instruments.flatMap(({ title, reopened }) =>
    reopened.map(({ unit, title: claim }) => `${title} failed: ${unit}  ${claim} must be proven again`),
  );
  return [table.toString(), ...fallen].join("\n");
}

/** A safety sheet in the order of its tests. */
export function safetyWords({ unit, model, place, market, state, figures, cautions }: SafetySheetView): string {
  const table = new Table({ style: plain, head: ["", "test", "reading", "limit", "seen", "stands", "first"] });
  figures.forEach(({ test, point, channel, quantity, value, doubt, low, high, limit, state: stands, waitsFor }, i) => {
    const { unit: sign } = quantityWords(quantity);
    const bounds = [low === undefined ? "" : `≥ ${figure(low)}`, high === undefined ? "" : `≤ ${figure(high)}`];
    table.push([
      i + 1,
      [test, point ?? channel].filter(Boolean).join(", "),
      value === undefined ? "" : `${figure(value)} ± ${figure(doubt ?? 0)} ${sign}`,
      `${bounds.filter(Boolean).join(" ")} ${sign}`,
      limit.seen,
      stands,
      waitsFor.join(", "),
    ]);
  });
  return [
    `${unit}, ${model}${place ? `, to ${place}` : ""}: ${state}`,
    market
      ? `Limits of ${market.market}: ${market.edition}; the ${market.by} answers for them.`
      : "Nobody adopted limits for this destination: the model's own stand in.",
    table.toString(),
    ...cautions.map((caution) => `Caution: ${caution}`),
  ].join("\n");
}

/** Limits by market, with who answers for them. */
export function limitWords({ markets, uncovered }: SafetyLimitsView): string {
  const parts = markets.map(({ market, edition, by, at, places, limits }) => {
    const table = new Table({ style: plain, head: ["test", "at least", "at most", "from", "seen"] });
    for (const { test, quantity, low, high, source, seen } of limits) {
      const { unit } = quantityWords(quantity);
      const told = (value: number | undefined) => (value === undefined ? "" : `${figure(value)} ${unit}`);
      table.push([test, told(low), told(high), source, seen]);
    }
    return `${market} (${places.join("; ")})\n${edition}; adopted by the ${by}, ${when(at)}\n${table.toString()}`;
  });
  const open =
    uncovered.length > 0 ? [`Nobody adopted limits for ${uncovered.join("; ")}: the model's own stand in.`] : [];
  return [...(parts.length > 0 ? parts : ["No limits are adopted yet."]), ...open].join("\n\n");
}

/** What units and choices cost. */
export function costsWords({ currency, models, missing, options, accounts }: CostsView): string {
  const table = new Table({
    style: plain,
    head: ["model", "price", "costs", "nine of ten between", "leaves", "sold at a loss"],
  });
  for (const { model, price_cents, cost, margin } of models) {
    table.push([
      model,
      money(price_cents, currency),
      money(cost.mean_cents, currency),
      `${money(cost.p05_cents)} to ${money(cost.p95_cents)}`,
      money(margin.mean_cents, currency),
      `${(100 * margin.oddsOfLoss).toFixed(1)} %`,
    ]);
  }
  const choices = options.map(({ option, choice, against, more_cents, low_cents, high_cents, state }) =>
    state === "undecided"
      ? `${option} ${choice} against ${against}: not told yet (${money(low_cents)} to ${money(high_cents)})`
      : `${option} ${choice} against ${against}: ${money(more_cents, currency)} (${money(low_cents)} to ${money(high_cents)})`,
  );
  return [
    ...(models.length > 0
      ? [table.toString()]
      : ["Nothing can be told yet: write down rates and a bill for each model."]),
    ...missing.map(({ model, why }) => `${model}: ${why}`),
    ...(choices.length > 0 ? ["", `What each choice really costs, from ${accounts} accounts:`, ...choices] : []),
  ].join("\n");
}

/** Where checks belong. */
export function checksWords(view: ChecksView): string {
  const { currency, units, faults, today_cents, saves, dear, silent, soaks = [], orders } = view;
  const told = ({ what, title, from, to, saving_cents, low_cents, high_cents }: ProposalView) =>
    `${what} ${title}${from ? ` from ${from}` : ""}${to ? ` to ${to}` : ""}: ${money(saving_cents, currency)} a unit (${money(low_cents)} to ${money(high_cents)})`;
  return [
    `${units} units and ${faults} faults; faults and checks cost ${money(today_cents, currency)} a unit today.`,
    ...(saves.length > 0
      ? ["What the records say to change:", ...saves.map((one) => `  ${told(one)}`)]
      : ["Nothing that saves by its whole interval."]),
    ...(dear.length > 0
      ? ["Cost more than they found, by these records; the owner decides:", ...dear.map((one) => `  ${told(one)}`)]
      : []),
    ...(silent.length > 0 ? ["Not told by these records:", ...silent.map((one) => `  ${told(one)}`)] : []),
    ...(soaks.length > 0 ? ["How long a check or a soak pays:"] : []),
    ...soaks.map(
      ({ what, kind, from_h, to_h, saving_cents, low_cents, high_cents, state }) =>
        `  ${kind} ${what} from ${from_h} h to ${to_h} h: ${money(saving_cents, currency)} a piece (${money(low_cents)} to ${money(high_cents)})${state === "saves" ? "" : ", not told by these hours"}`,
    ),
    ...orders.map(
      ({ model, now_min, best_min, optimal }) =>
        `Checks of ${model}: ${now_min.toFixed(0)} min as listed, ${best_min.toFixed(0)} in the cheapest order${optimal ? "" : " found"}.`,
    ),
  ].join("\n");
}
