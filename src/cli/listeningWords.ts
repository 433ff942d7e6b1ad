import Table from "cli-table3";
import type { ListeningIndexView, SeriesView, SwitchingView } from "../workshop/listening/views.ts";

const plain = { head: [], border: [] };
const figure = (value: number) => String(Number(value.toPrecision(3)));
const hundred = (share: number) => String(Math.round(100 * share));

export function listWords({ series }: ListeningIndexView): string {
  if (series.length === 0) return "No blind series is planned yet.";
  const table = new Table({ style: plain, head: ["series", "model", "versions", "asked", "answers", "stands"] });
  for (const { series: name, model, versions, asked, answered, of, state } of series) {
    table.push([name, model, versions.join(", "), asked, `${answered} of ${of}`, state]);
  }
  return table.toString();
}

export function seriesWords(view: SeriesView): string {
  const { series, model, versions, asked, trials, progress, level, told, preferred, closed, notes } = view;
  const levels = level
    ? `Levels ${level.state === "proven" ? "proven alike" : "not proven alike"}: ${figure(level.difference_dB)} ± ${figure(level.doubt_dB)} dB apart.`
    : "Levels were not read.";
  const lines = [
    `${series}: ${model}, ${versions.join(" and ")}, ${asked}; ${trials} trials each. ${levels}`,
    ...progress.map(({ listener, answered }) => `  ${listener}: ${answered} of ${trials}`),
  ];
  if (!closed) return [...lines, "Its lot stays sealed until it is closed."].join("\n");
  if (told) {
    const { right, trials: made, p, moreTrials, share } = told.together;
    lines.push(
      `${right} of ${made} right (${hundred(share.low)} to ${hundred(share.high)} in 100); by guessing with a chance of ${figure(p)}; the answers speak ${figure(told.odds)} to 1 for hearing.`,
      ...told.listeners.map((one) => `  ${one.listener}: ${one.right} of ${one.trials}, by guessing ${figure(one.p)}`),
      moreTrials
        ? `${moreTrials} more trials, planned afresh, would find a clear listener.`
        : "The series was long enough.",
    );
  }
  if (preferred) {
    lines.push(
      ...preferred.ranking.map(
        ({ item, strength, low, high }) =>
          `  ${item}: ${hundred(strength)} of 100 (${hundred(low)} to ${hundred(high)})`,
      ),
    );
    const { order, reason, p } = preferred;
    if (reason !== undefined) lines.push(reason);
    if (p !== undefined) lines.push(`Equals would be chosen as unevenly with a chance of ${figure(p)}.`);
    if (order?.odds !== undefined)
      lines.push(
        `The first playing is chosen at odds of ${figure(order.odds)} (${figure(order.low!)} to ${figure(order.high!)}) by its order alone.`,
      );
    else if (order?.reason !== undefined) lines.push(order.reason);
  }
  return [...lines, ...notes].join("\n");
}

export function switchingWords({ series, listener, trials }: SwitchingView): string {
  const table = new Table({ style: plain, head: ["trial", "play, in this order", ""] });
  for (const { trial, plays, isAnswered } of trials)
    table.push([trial, plays.join(", "), isAnswered ? "answered" : ""]);
  return [
    `${series}, for ${listener}. For whoever switches alone: who has read this can be no listener.`,
    table.toString(),
  ].join("\n");
}
