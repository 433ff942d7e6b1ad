import type { TraysView, TrayValveView, TrayView, ValveSetsView } from "../workshop/views.ts";
import { dayWords, table } from "./words.ts";

const signs: Readonly<Record<TrayValveView["standing"], string>> = { use: "✓", hold: "?", reject: "✗", unread: "·" };

export function traysWords({ trays }: TraysView): string {
  if (trays.length === 0) return "No valve has come in yet. A batch is entered with 'stillglow enter', or on the page.";
  return table(
    ["tray", "type", "valves", "use", "hold", "reject", "unread", "came", "from"],
    trays.map(({ batch, type, valves, stands, at, seller }) => [
      batch,
      type,
      `${valves}`,
      `${stands.use}`,
      `${stands.hold}`,
      `${stands.reject}`,
      `${stands.unread}`,
      dayWords(at),
      seller,
    ]),
  );
}

/** Places that a valve does not serve for certain; where it serves goes without saying. */
function elsewhere({ advice }: TrayValveView): readonly string[] {
  return advice
    .filter(({ serves }) => serves !== "yes")
    .map(
      ({ place, serves, words }) => `${place}: ${serves === "no" ? "does not serve" : "undecided"}. ${words.join(" ")}`,
    );
}

/** A tray for a terminal: what the tester did, and every valve with its drift, its verdict and why. */
export function trayWords(view: TrayView): string {
  const { reference } = view;
  const rows = view.valves.map((valve) => [
    signs[valve.standing],
    valve.valve,
    valve.standing,
    valve.sections
      .map(({ section, drift_pct, doubt_pct }) =>
        drift_pct === undefined
          ? `${section} –`
          : `${section} ${drift_pct.toFixed(1)} ± ${(doubt_pct ?? 0).toFixed(1)}`,
      )
      .join(", "),
    valve.standsIn ? `in ${valve.standsIn.unit} ${valve.standsIn.position}` : "",
    [...(valve.standing === "use" ? [] : valve.reasons), ...elsewhere(valve)].join(" "),
  ]);
  return [
    `Tray ${view.batch}: ${view.valves.length} valves ${view.type}, from ${view.seller}, came ${dayWords(view.at)}`,
    ...(reference?.lean_pct === undefined
      ? []
      : [
          `The tester moved ${reference.lean_pct.toFixed(1)} % between the cold and the hot session, as ${reference.valve} shows; it is taken out below.`,
        ]),
    ...(view.wanting ? [view.wanting] : []),
    ...(view.heatRunEnds ? [`Heat run until ${dayWords(view.heatRunEnds)}, ${view.heatRunEnds.slice(11, 16)}.`] : []),
    "",
    table(["", "valve", "", "drift, %", "stands", "because"], rows, [3, 12, 9, 28, 14, 60]),
  ].join("\n");
}

export function setsWords(view: ValveSetsView): string {
  const parts = view.models.flatMap((model) => {
    const unit = model.by === "circuit" ? "dB" : "%";
    const line = (cost: number, doubt?: number) => `${cost.toFixed(2)}${doubt ? ` ± ${doubt.toFixed(2)}` : ""} ${unit}`;
    const positions = (set: Readonly<Record<string, string>>) =>
      Object.entries(set)
        .map(([position, valve]) => `${position}=${valve}`)
        .join(" ");
    return [
      "",
      model.by === "circuit"
        ? `${model.model}: imbalance of the channels in its own circuit, as predicted (limit ${model.limit} dB)`
        : `${model.model}: by likeness at the test point`,
      ...model.sets.map(
        (set) => `  unit ${set.unit}, order ${set.order}: ${positions(set.positions)}  ${line(set.cost, set.doubt)}`,
      ),
      ...(model.unplaced.length > 0 ? [`  without a set: ${model.unplaced.join(", ")}`] : []),
      ...model.reserve.map((set) => `  reserve: ${positions(set.positions)}  ${line(set.cost, set.doubt)}`),
    ];
  });
  return [
    `${view.considered} valves ${view.type} may be used and stand nowhere (${view.from === "tray" ? `tray ${view.batch}` : "whole shelf"}).`,
    ...view.notes,
    ...parts,
  ].join("\n");
}
