import Table from "cli-table3";
import { quantityWords } from "../measurement/quantityWords.ts";
import type { LinksView, SupplyView, TakenView } from "../workshop/instruments/linkViews.ts";

const plain = { head: [], border: [] };

/** Instruments on the wire, a line each, and the logs that run. */
export function linkedWords({ linked, ended }: LinksView): string {
  if (linked.length === 0) return "No instrument is linked; 'stillglow instruments link FILE' links one.";
  const table = new Table({ style: plain, head: ["instrument", "where", "link", "trial", "reads", "sets"] });
  for (const { instrument, where, state, standing, quantities, settings } of linked) {
    table.push([
      instrument,
      where,
      state,
      standing.state,
      quantities.map(({ quantity }) => quantity).join(" "),
      settings.map(({ setting, low, high }) => `${setting} ${low ?? "–"}..${high ?? "–"}`).join(" "),
    ]);
  }
  const lost = linked.flatMap(({ instrument, why }) => (why === undefined ? [] : [`${instrument}: ${why}`]));
  const logs = linked.flatMap(({ logs: running }) =>
    running.map((log) => `${log.log}: ${log.quantity}, ${log.passed} of ${log.all}, ${log.logged} logged`),
  );
  const over = ended.map(({ log, quantity, logged, because }) => `${log}: ${quantity}, ${logged} logged; ${because}`);
  return [table.toString(), ...lost, ...logs, ...over].join("\n");
}

/** A figure that was read, with its instrument's trial. */
export function takenWords({ instrument, quantity, value, doubt, standing }: TakenView): string {
  const { name, unit } = quantityWords(quantity);
  const trial = standing.state === "good" ? standing.words : `${standing.state}: ${standing.words}`;
  return `${name} ${value} ± ${doubt} ${unit}\n${instrument}, ${trial}`;
}

/** What a supply said that it is set to. */
export function supplyWords({ instrument, settings, isOn }: SupplyView): string {
  const set = Object.entries(settings).map(([setting, value]) => `${value} ${quantityWords(setting).unit}`);
  const output = isOn === undefined ? "" : `; its output is ${isOn ? "on" : "off"}`;
  const caution = isOn ? "\nIts leads are live: hands away until it is off and discharged." : "";
  return `${instrument} says that it is set to ${set.join(", ")}${output}.${caution}`;
}
