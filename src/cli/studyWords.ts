import Table from "cli-table3";
import type { GaugeStudy, WindowShare } from "../measurement/index.ts";
import { quantityWords } from "../measurement/quantityWords.ts";
import type { GaugeView, UnitChartsView } from "../workshop/instruments/views.ts";

const plain = { head: [], border: [] };
const figure = (value: number) => String(Number(value.toPrecision(3)));

/** The spreads of a study, and what it leaves of a window. */
export function studyWords(result: GaugeStudy, window?: WindowShare): string {
  const { interval } = result;
  const table = new Table({ style: plain, head: ["", "spread", "95 % between"] });
  for (const [name, key] of [
    ["same hands, same part", "repeatability_sd"],
    ["between hands", "reproducibility_sd"],
    ["instrument and hands", "gauge_sd"],
    ["between parts", "part_sd"],
  ] as const) {
    table.push([name, figure(result[key]), `${figure(interval[key].low)} to ${figure(interval[key].high)}`]);
  }
  const share = interval.gauge_pct;
  return [
    table.toString(),
    ...(share
      ? [
          `Instrument and hands are ${result.gauge_pct!.toFixed(0)} % of the spread of all readings (${share.low.toFixed(0)} to ${share.high.toFixed(0)} %).`,
        ]
      : []),
    ...(window
      ? [
          `A reading proves nothing nearer to a limit than ${figure(window.guard)}${window.eaten_pct === undefined ? "" : `: ${window.eaten_pct.toFixed(0)} % of the window`}.`,
        ]
      : []),
  ].join("\n");
}

/** Studies on record, each with the windows it is used for. */
export function gaugeWords({ studies }: GaugeView): string {
  if (studies.length === 0) return "No gauge study is written down.";
  return studies
    .map(({ title, quantity, at, result, windows }) =>
      [
        `${title}, ${quantityWords(quantity).name}, ${at.slice(0, 10)}`,
        result.state === "undecided" ? (result.reason ?? "") : studyWords(result),
        ...windows.map(({ model, title: claim, eaten_pct, least_pct, most_pct, guard }) =>
          eaten_pct === undefined
            ? `  ${model}, ${claim}: one end only, ${figure(guard)} inside it`
            : `  ${model}, ${claim}: ${eaten_pct.toFixed(0)} % of its window eaten (${least_pct!.toFixed(0)} to ${most_pct!.toFixed(0)} %)`,
        ),
      ].join("\n"),
    )
    .join("\n\n");
}

/** Figures of each model over its units, those where something stands out first. */
export function unitChartWords({ charts, few }: UnitChartsView): string {
  const loud = charts.filter(({ signals }) => signals.length > 0);
  const lines = loud.map(({ model, quantity, where, units, signals, centre, low, high }) => {
    const named = [
      ...new Set(signals.map(({ index, rule }) => `${units[index]!.unit}${rule === "run" ? " (in a row)" : ""}`)),
    ];
    return `${model}  ${quantity} ${where}: ${named.join(", ")}; the others ${figure(centre)}, ${figure(low)} to ${figure(high)}`;
  });
  return [
    `${charts.length} figures charted over units, ${loud.length} with something that stands out.`,
    ...lines,
    ...(few > 0 ? [`${few} figures are known of too few units.`] : []),
  ].join("\n");
}
