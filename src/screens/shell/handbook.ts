import { languageInUse } from "../languages/spoken.ts";

/** The handbook's chapter about each screen, and the calculations whose figures it shows; the first that fits counts. */
const screens: readonly (readonly [RegExp, chapter: string, papers?: readonly string[]])[] = [
  [/^\/$/, "morning", ["production.next"]],
  [/^\/promises\/what-if/, "orders-and-promises", ["production.whatif"]],
  [/^\/promises\/kept/, "orders-and-promises", ["production.kept"]],
  [/^\/promises/, "orders-and-promises", ["production.promise"]],
  [/^\/look-back/, "look-back", ["production.lookback"]],
  [/^\/costs/, "look-back", ["production.cost", "production.options"]],
  [/^\/checks/, "look-back", ["production.where"]],
  [/^\/soaks/, "heat-run", ["production.soak"]],
  [/^\/unit\/[^/]+\/hum/, "hum-hearing", ["hum.trace", "hum.audible", "bench.supply", "bench.tap"]],
  [
    /^\/unit\/[^/]+\/bench/,
    "bench-sheet",
    [
      "bench.tone",
      "bench.twotone",
      "bench.sweep",
      "bench.noise",
      "bench.balance",
      "bench.tap",
      "bench.switchon",
      "bench.loopback",
    ],
  ],
  [/^\/unit\/[^/]+\/probe/, "probe-card", ["circuits.spread", "circuits.resistance", "circuits.suspects"]],
  [/^\/unit\/[^/]+\/case/, "case", ["timber.case", "timber.finish"]],
  [/^\/unit\/[^/]+\/safety/, "safety", ["safety.verdict", "safety.discharge", "safety.jack"]],
  [/^\/unit\/[^/]+\/supply/, "supply", ["supply.destination"]],
  [/^\/unit\/[^/]+\/work/, "rework"],
  [/^\/unit\/[^/]+\/pack/, "release"],
  [/^\/unit\/[^/]+\/return/, "returns", ["valves.sets"]],
  [/^\/shop/, "first-day"],
  [/^\/order/, "orders-and-promises"],
  [/^\/unit\//, "release", ["measurement.guard"]],
  [/^\/units/, "release"],
  [/^\/safety/, "safety", ["safety.verdict"]],
  [/^\/instruments\/gauge/, "instruments", ["measurement.gauge"]],
  [/^\/instruments\/units/, "instruments", ["measurement.chart", "measurement.capability"]],
  [/^\/instruments\/budget/, "instruments", ["measurement.budget"]],
  [/^\/instruments/, "instruments", ["measurement.chart", "measurement.guard"]],
  [
    /^\/listening/,
    "listening",
    ["listening.blind", "listening.design", "listening.pairs", "listening.level", "safety.dose"],
  ],
  [/^\/valves\/[^/]+\/seller/, "sets", ["valves.buy", "valves.verdict"]],
  [/^\/valves\/[^/]+/, "heat-run", ["valves.verdict", "valves.fit", "valves.sets"]],
  [/^\/valves/, "heat-run", ["valves.verdict", "valves.buy"]],
  [/^\/timber\/cuts/, "timber", ["timber.panels"]],
  [/^\/timber/, "timber", ["timber.piece", "timber.emc", "timber.runs"]],
  [
    /^\/notebook/,
    "notebook",
    ["circuits.version", "circuits.spread", "circuits.yield", "circuits.noise", "circuits.startup", "listening.pairs"],
  ],
  [/^\/exchange/, "import-export"],
  [/^\/people/, "people"],
  [/^\/customers/, "people"],
];

/** Languages that the handbook is written in besides English. */
const written = ["de", "pl"];
const language = () => (written.includes(languageInUse()) ? languageInUse() : "en");

/** Where the handbook tells of the screen at an address; its contents where no chapter does. */
export function handbookAt(location: string): string {
  const chapter = screens.find(([pattern]) => pattern.test(location))?.[1] ?? "";
  return `/handbook/${language()}/${chapter}`;
}

/** Names of the calculations whose figures the screen at an address shows. */
export const papersAt = (location: string): readonly string[] =>
  screens.find(([pattern]) => pattern.test(location))?.[2] ?? [];

/** Where a calculation's paper lies: its formula, sources, validity and doubt. */
export const paperAt = (calculation: string): string =>
  `/papers/${calculation}${language() === "en" ? "" : `?language=${language()}`}`;
