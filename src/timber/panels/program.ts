import { linearSolver } from "../../maths/linearSolver.ts";
import type { Item, Ripping } from "./strips.ts";

/** An item in a strip of a ripping, with what it counts. */
export interface Place {
  readonly item: number;
  readonly ripping: number;
  readonly strip: number;
  readonly cost: number;
}

export interface Chosen {
  /** Index into the places. */
  readonly places: readonly number[];
  readonly cost: number;
}

/**
 * The boards-to-panels question as a linear program, whole numbers or not.
 *
 *     least of  Σ area·opened + Σ cost·placed + penalty·(panels left out)
 *     a panel's staves all or none;   Σ (length + kerf) ≤ (stretch + kerf)·opened in each strip;   a stretch ripped one way
 *
 * @returns with whole numbers the best plan found and whether it is proved; without, a bound alone
 */
export async function solveProgram(
  items: readonly Item[],
  rippings: readonly Ripping[],
  places: readonly Place[],
  { penalty, kerf_mm, seconds, isWhole }: { penalty: number; kerf_mm: number; seconds: number; isWhole: boolean },
): Promise<{ readonly state: "proved" | "found" | "none"; readonly chosen?: Chosen; readonly bound?: number }> {
  const solver = await linearSolver();
  const panels = [...new Set(items.map(({ panel }) => panel))];
  const sum = (all: readonly string[]) => {
    const lines: string[] = [];
    for (let i = 0; i < all.length; i += 6) lines.push(all.slice(i, i + 6).join(" "));
    return lines.join("\n  ");
  };
  const costs = [
    ...places.map(({ cost }, k) => `+ ${cost.toFixed(6)} x${k}`),
    ...rippings.map(({ area_dm2 }, r) => `+ ${area_dm2.toFixed(6)} y${r}`),
    ...panels.map((p) => `- ${penalty.toFixed(3)} u${p}`),
  ];
  const rows: string[] = [];
  const byItem = new Map<number, number[]>();
  const byStrip = new Map<string, number[]>();
  places.forEach(({ item, ripping, strip }, k) => {
    byItem.set(item, [...(byItem.get(item) ?? []), k]);
    const key = `${ripping} ${strip}`;
    byStrip.set(key, [...(byStrip.get(key) ?? []), k]);
  });
  items.forEach(({ panel }, i) => {
    const here = byItem.get(i) ?? [];
    rows.push(`${sum([...here.map((k) => `+ x${k}`), `- u${panel}`])} = 0`);
  });
  for (const [key, here] of byStrip) {
    const ripping = Number(key.split(" ")[0]);
    const room = rippings[ripping]!.length_mm + kerf_mm;
    rows.push(
      `${sum([...here.map((k) => `+ ${(items[places[k]!.item]!.length_mm + kerf_mm).toFixed(3)} x${k}`), `- ${room.toFixed(3)} y${ripping}`])} <= 0`,
    );
    for (const k of here) rows.push(`+ x${k} - y${ripping} <= 0`);
  }
  const segments = new Map<number, number[]>();
  for (const [r, { segment }] of rippings.entries()) segments.set(segment, [...(segments.get(segment) ?? []), r]);
  for (const here of segments.values()) rows.push(`${sum(here.map((r) => `+ y${r}`))} <= 1`);
  const names = [...places.map((_, k) => `x${k}`), ...rippings.map((_, r) => `y${r}`), ...panels.map((p) => `u${p}`)];
  const text = [
    "Minimize",
    `obj: ${sum(costs)}`,
    "Subject To",
    ...rows.map((row, i) => `c${i}: ${row}`),
    "Bounds",
    ...names.map((name) => `0 <= ${name} <= 1`),
    ...(isWhole ? ["Binary", sum(names)] : []),
    "End",
  ].join("\n");
  const answer = solver.solve(text, {
    time_limit: seconds,
    mip_rel_gap: 0,
    mip_abs_gap: 1e-6,
    output_flag: false,
  } as object);
  const whole = penalty * panels.length;
  if (!isWhole)
    return answer.Status === "Optimal" ? { state: "proved", bound: answer.ObjectiveValue + whole } : { state: "none" };
  if (answer.Status !== "Optimal" && answer.Status !== "Time limit reached") return { state: "none" };
  const value = (name: string) => (answer.Columns[name] as { Primal?: number } | undefined)?.Primal ?? 0;
  const chosen = places.flatMap((_, k) => (value(`x${k}`) > 0.5 ? [k] : []));
  if (chosen.length === 0 && answer.Status !== "Optimal") return { state: "none" };
  // Counted anew: the solver's own sum carries its tolerance times the penalty.
  const opened = new Set(chosen.map((k) => places[k]!.ripping));
  const placed = new Set(chosen.map((k) => items[places[k]!.item]!.panel));
  const cost =
    chosen.reduce((total, k) => total + places[k]!.cost, 0) +
    [...opened].reduce((total, r) => total + rippings[r]!.area_dm2, 0) +
    penalty * (panels.length - placed.size);
  const isProved = answer.Status === "Optimal";
  return {
    state: isProved ? "proved" : "found",
    chosen: { places: chosen, cost },
    ...(isProved ? { bound: cost } : {}),
  };
}
