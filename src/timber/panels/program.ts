import { linearSolver } from "../../maths/linearSolver.ts";
import type { Item, Ripping } from "./strips.ts";

/** An item in a bay of a ripping, with what it counts. */
export interface Place {
  readonly item: number;
  readonly ripping: number;
  readonly bay: number;
  readonly cost: number;
}

export interface Chosen {
  /** Index into the places. */
  readonly places: readonly number[];
  readonly cost: number;
}

export interface ProgramOptions {
  readonly penalty: number;
  readonly kerf_mm: number;
  readonly seconds: number;
  readonly isWhole: boolean;
  /** Panels, by number, each list of which is to come from one board. */
  readonly matched: readonly (readonly number[])[];
}

/**
 * The boards-to-panels question as a linear program, whole numbers or not.
 *
 *     least of  Σ area·opened + Σ cost·placed + penalty·(panels left out)
 *     a panel's staves all or none;   Σ (length + kerf) ≤ (bay + kerf)·opened in each bay;   a stretch ripped one way
 *     panels that are to match all from one board
 *
 * @returns with whole numbers the best plan found and whether it is proved; without, a bound alone
 */
export async function solveProgram(
  items: readonly Item[],
  rippings: readonly Ripping[],
  places: readonly Place[],
  { penalty, kerf_mm, seconds, isWhole, matched }: ProgramOptions,
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
  const byBay = new Map<string, number[]>();
  places.forEach(({ item, ripping, bay }, k) => {
    byItem.set(item, [...(byItem.get(item) ?? []), k]);
    const key = `${ripping} ${bay}`;
    byBay.set(key, [...(byBay.get(key) ?? []), k]);
  });
  items.forEach(({ panel }, i) => {
    const here = byItem.get(i) ?? [];
    rows.push(`${sum([...here.map((k) => `+ x${k}`), `- u${panel}`])} = 0`);
  });
  for (const [key, here] of byBay) {
    const [ripping, bay] = key.split(" ").map(Number) as [number, number];
    const room = rippings[ripping]!.bays[bay]!.length_mm + kerf_mm;
    rows.push(
      `${sum([...here.map((k) => `+ ${(items[places[k]!.item]!.length_mm + kerf_mm).toFixed(3)} x${k}`), `- ${room.toFixed(3)} y${ripping}`])} <= 0`,
    );
    for (const k of here) rows.push(`+ x${k} - y${ripping} <= 0`);
  }
  const segments = new Map<number, number[]>();
  for (const [r, { segment }] of rippings.entries()) segments.set(segment, [...(segments.get(segment) ?? []), r]);
  for (const here of segments.values()) rows.push(`${sum(here.map((r) => `+ y${r}`))} <= 1`);
  const chosenBoards: string[] = [];
  matched.forEach((group, g) => {
    const byBoard = new Map<number, number[]>();
    for (const [i, { panel }] of items.entries()) {
      if (!group.includes(panel)) continue;
      for (const k of byItem.get(i) ?? []) {
        const { board } = rippings[places[k]!.ripping]!;
        byBoard.set(board, [...(byBoard.get(board) ?? []), k]);
      }
    }
    for (const [board, here] of byBoard) {
      chosenBoards.push(`b${g}_${board}`);
      for (const k of here) rows.push(`+ x${k} - b${g}_${board} <= 0`);
    }
    if (byBoard.size > 0) rows.push(`${sum([...byBoard.keys()].map((board) => `+ b${g}_${board}`))} <= 1`);
  });
  const names = [
    ...chosenBoards,
    ...places.map((_, k) => `x${k}`),
    ...rippings.map((_, r) => `y${r}`),
    ...panels.map((p) => `u${p}`),
  ];
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
