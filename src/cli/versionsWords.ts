import Table from "cli-table3";
import type { ChangeView, OutlookView, SpreadView } from "../workshop/notebook/views.ts";

const groups: Readonly<Record<string, string>> = {
  points: "Test points",
  valves: "Valves, beside their ratings",
  sound: "Sound, into what it drives",
  noise: "Hiss",
  heat: "Heat",
  cost: "Cost of parts",
};
const bare = Object.fromEntries(
  ["top", "bottom", "left", "mid", "right"]
    .flatMap((side) => [side, `${side}-mid`, `${side}-left`, `${side}-right`])
    .concat("left-mid", "mid-mid", "right-mid")
    .map((place) => [place, ""]),
);

/** Versions side by side in a terminal: each figure, and in brackets what it moved by. */
export function versionsWords({ columns, groups: found }: SpreadView): string {
  const heads = columns.map(({ name, against, changes, trouble }) =>
    [
      `${name}${against === undefined ? "" : `, from ${against}`}: ${changes.slice(0, 8).map(changed).join("; ") || "as drawn"}`,
      ...(trouble === undefined ? [] : [`  nothing could be computed: ${trouble}`]),
    ].join("\n"),
  );
  const table = new Table({
    head: ["", "", ...columns.map(({ name }) => name)],
    chars: { ...bare, middle: " " },
    style: { head: [], border: [], "padding-left": 0, "padding-right": 1 },
  });
  for (const { group, rows } of found) {
    table.push([groups[group] ?? group]);
    for (const { of, where, quantity, most, cells } of rows) {
      table.push([
        `  ${[of.join(" + "), ...where].join(", ")}`,
        quantity,
        ...cells.map((cell) => {
          if (!cell) return "–";
          const moved = cell.difference ? ` (${cell.difference > 0 ? "+" : ""}${short(cell.difference)})` : "";
          const rated = most === undefined ? "" : cell.over ? ` OVER ${short(most)}` : ` of ${short(most)}`;
          return `${short(cell.value)}${rated}${moved}`;
        }),
      ]);
    }
  }
  const notes = [...new Set(columns.flatMap((column) => column.notes))].map((note) => `note: ${note}`);
  return [...heads, "", table.toString(), "", ...notes].join("\n");
}

export function outlookWords(outlook: OutlookView): string {
  const { name, trouble, windows, broken, costly, notServing, notes } = outlook;
  const hundred = (share: number) => short(100 * share);
  return [
    `Version ${name}, built many times over`,
    ...(trouble === undefined ? [] : [`  ${trouble}`]),
    ...(outlook.yield
      ? [
          `  yield ${hundred(outlook.yield.share)} of 100 (${hundred(outlook.yield.low)} to ${hundred(outlook.yield.high)}, ${outlook.yield.draws} drawn)`,
        ]
      : []),
    ...broken.slice(0, 6).map(({ limit, share }) => `  breaks ${limit}: ${hundred(share)} of 100`),
    ...costly.map(
      ({ part, gain, doubt }) => `  ${part} without its spread: ${hundred(gain)} ± ${hundred(doubt)} more of 100`,
    ),
    ...windows.map(
      ({ point, low_V, high_V }) => `  ${point}: 99 in 100 between ${short(low_V)} and ${short(high_V)} V`,
    ),
    ...notServing.map(({ valve, type, reasons }) => `  ${valve}, ${type}, would not serve: ${reasons.join("; ")}`),
    ...notes.map((note) => `  note: ${note}`),
  ].join("\n");
}

function changed(change: ChangeView): string {
  if (change.kind !== "changed") return `${change.part} ${change.kind} (${change.what})`;
  const said = (value: unknown) => (typeof value === "string" ? value : JSON.stringify(value));
  return `${change.part}${change.part === "" ? "" : "."}${change.field} ${said(change.before)} → ${said(change.after)}`;
}

const short = (value: number): string => String(Number(value.toPrecision(4)));
