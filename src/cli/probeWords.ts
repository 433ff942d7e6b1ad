import type { ProbeCardView, ProbeKind, ProbeSuspectsView, ProbeWindowsView } from "../workshop/views.ts";
import { windowStanding } from "../workshop/windowStanding.ts";
import { table } from "./words.ts";

const kinds: readonly (readonly [ProbeKind, string, string])[] = [
  ["resistance", "dead", "ohm"],
  ["dc", "volts", "V"],
  ["gain", "gain", "dB"],
];

/** The probe card for a terminal: every point, what good units read there, what was read, and what that speaks for. */
export function probeWords(card: ProbeCardView, windows: ProbeWindowsView, suspects: ProbeSuspectsView): string {
  const rows = card.points.flatMap((point, i) =>
    kinds.flatMap(([kind, name, unit]) => {
      const reading = point.readings.find((one) => one.kind === kind && one.fallen === undefined);
      const window = windows[kind][point.point];
      if (!reading && !window) return [];
      return [
        [
          kind === "resistance" ? `${i + 1}` : "",
          kind === "resistance" ? point.point : "",
          name,
          window ? `${brief(window.low)} to ${brief(window.high)} ${unit}` : "no window",
          reading ? `${brief(reading.value)} ± ${brief(reading.doubt)} ${unit}` : "not read",
          reading && window ? standings[windowStanding(reading, window)] : "",
        ],
      ];
    }),
  );
  const { nextProbe } = suspects;
  return [
    `Probe card of unit ${card.unit}, ${card.model} revision ${card.revision}`,
    "",
    rows.length > 0
      ? table(["", "point", "", "99 of 100 good units", "read", ""], rows)
      : "Its model names no test points.",
    ...(windows.trouble ? ["", `No windows: ${windows.trouble}`] : []),
    "",
    `${suspects.state.toUpperCase()}: ${suspects.because}`,
    ...suspects.suspects.map(
      ({ part, fault, odds, words, alike }, i) =>
        `  ${i + 1}. ${part} ${fault}, odds ${oddsWords(odds)}${words ? ` (${words})` : ""}${alike.length > 0 ? `; no reading tells it from ${alike.join(", ")}` : ""}`,
    ),
    ...(nextProbe
      ? [
          "",
          `Next probe: ${nextProbe.point}, ${nextProbe.kind === "resistance" ? `resistance to ${nextProbe.to}, unplugged and discharged` : nextProbe.kind === "gain" ? `gain from ${nextProbe.input}` : "direct voltage"}. ${nextProbe.why}`,
          `Caution: ${nextProbe.caution}`,
        ]
      : []),
    ...suspects.notes.map((note) => `Note: ${note}`),
  ].join("\n");
}

const standings = { inside: "inside", outside: "OUTSIDE", undecided: "within its doubt of the edge" } as const;

const brief = (value: number) => String(Number(value.toPrecision(4)));

/** Chance can't be excluded, so no odds are ever called certain. */
const oddsWords = (odds: number) =>
  odds > 0.99 ? "over 99 in 100" : odds < 0.005 ? "under 1 in 100" : `${Math.round(odds * 100)} in 100`;
