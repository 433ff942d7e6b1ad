import type { Shop } from "../../claims/index.ts";
import { BadInput } from "../../maths/badInput.ts";
import type { Calculate } from "../calculate.ts";
import { groupBy } from "../groupBy.ts";
import type { Written } from "./draft.ts";
import { type CurvedValve, curvedShelf } from "./shelf.ts";
import type { BenchedView, OutlookView } from "./views.ts";

interface Yield {
  readonly state: "solved" | "undecided";
  readonly reason?: string;
  readonly yield: number;
  readonly low: number;
  readonly high: number;
  readonly draws: number;
  readonly broken: OutlookView["broken"];
  readonly costly: OutlookView["costly"];
  readonly fromShelf: OutlookView["fromShelf"];
  readonly notServing: OutlookView["notServing"];
  readonly notes: readonly string[];
}

export interface Windows {
  readonly state: string;
  readonly reason?: string;
  readonly points: Readonly<
    Record<string, { readonly low_V: number; readonly median_V: number; readonly high_V: number }>
  >;
  readonly notes?: readonly string[];
}

const seed = 1;
const windowSamples = 2000;

/** Fewer measured bottles of a type than these say too little of its spread. */
const fewestBottles = 8;

/** What the windows of a net list's test points are asked by: measured valves where there are enough of a type. */
export function windowQuestion(netlist: Written, shelf: readonly CurvedValve[] = []): object {
  const byType = [...groupBy(shelf, ({ type }) => type)].filter(([, valves]) => valves.length >= fewestBottles);
  const batch = Object.fromEntries(
    byType.map(([type, valves]) => [type, valves.map(({ models }) => Object.values(models))]),
  );
  return { netlist, samples: windowSamples, seed, ...(byType.length > 0 && { batch }) };
}

/** Windows of the test points and yield over the shop's own valves, for one version or draft. */
export async function outlook(
  name: string,
  netlist: Written,
  { channels, limits }: BenchedView,
  shop: Shop,
  calculate: Calculate,
): Promise<OutlookView> {
  const nothing = { name, windows: [], broken: [], costly: [], fromShelf: {}, notServing: [], notes: [] };
  try {
    const shelf = await curvedShelf(shop, netlist, calculate);
    const [windows, found] = await Promise.all([
      calculate<Windows>("circuits.spread", windowQuestion(netlist, shelf)),
      calculate<Yield>("circuits.yield", { netlist, channels, limits, shelf, seed }),
    ]);
    if (found.state !== "solved") return { ...nothing, trouble: found.reason ?? "no rest was found" };
    const points = windows.state === "solved" ? windows.points : {};
    const { broken, costly, fromShelf, notServing, notes } = found;
    return {
      name,
      windows: Object.entries(points).map(([point, { low_V, high_V }]) => ({ point, low_V, high_V })),
      yield: { share: found.yield, low: found.low, high: found.high, draws: found.draws },
      broken,
      costly,
      fromShelf,
      notServing,
      notes: [...new Set([...notes, ...(windows.notes ?? [])])],
    };
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return { ...nothing, trouble: fault.message };
  }
}
