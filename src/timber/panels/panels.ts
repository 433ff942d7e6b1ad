import { BadInput, quote } from "../../maths/badInput.ts";
import { speciesNamed } from "../species.ts";
import { type PanelsAnswer, type PanelsQuestion, usualAllowance, usualWorth } from "./ask.ts";
import { greedyPlan } from "./greedy.ts";
import { type Chosen, type Place, solveProgram } from "./program.ts";
import { costOf, type Item, itemsOf, movementOf, type Ripping, rippingsOf, unfit } from "./strips.ts";

/** Places of all staves in strips up to which the whole-number program is tried, and up to which its relaxation is. */
const mostWhole = 2500;
const mostRelaxed = 4000;

/**
 * Which piece of which board becomes which panel, over all open cases together.
 *
 *     clear stretches between defects are ripped into strips and each strip cut to lengths
 *     first as many panels as can be, then least of  area opened [dm²] + worth of movement, moisture and figure
 *
 * @returns cuts with their places on the boards, what cannot be placed and why, and the bound that the plan's cost was
 *   held against: equal where it is proved best
 * @throws BadInput  an unknown species, a panel twice in a case, a size that is not above 0
 * @remarks Exact for small questions (whole-number program); larger ones by hand's rule, with a bound. Rip first, then
 *   cut across: a wide and a narrow panel side by side are found, a panel over a defect's edge is not.
 */
export async function boardsToPanels(question: PanelsQuestion): Promise<PanelsAnswer> {
  requirePanels(question);
  const { boards, panels } = question;
  const allowance = { ...usualAllowance, ...question.allowance };
  const worth = { ...usualWorth, ...question.worth };
  const { kerf_mm } = allowance;
  const items = itemsOf(panels, allowance);
  // What each panel would count from each board; nothing where the board may not give it.
  const counts = panels.map((panel) =>
    boards.map((board) => (unfit(panel, board, allowance) ? undefined : costOf(panel, board, worth))),
  );
  const rippings = rippingsOf(boards, items, (item, board) => counts[item.panel]![board] !== undefined, kerf_mm);
  const places = rippings.flatMap((ripping, r) =>
    ripping.strips_mm.flatMap((strip_mm, strip) =>
      items.flatMap((item, i): Place[] => {
        const cost = counts[item.panel]![ripping.board];
        const isFit = item.width_mm <= strip_mm + 1e-9 && item.length_mm <= ripping.length_mm;
        return isFit && cost !== undefined ? [{ item: i, ripping: r, strip, cost }] : [];
      }),
    ),
  );
  const whole_dm2 = boards.reduce((sum, { length_mm, width_mm }) => sum + (length_mm * width_mm) / 1e4, 0);
  const penalty = 1 + whole_dm2 + largestCosts(places).reduce((sum, one) => sum + one, 0);

  const options = { penalty, kerf_mm, seconds: Math.min(question.seconds ?? 6, 60) };
  let chosen = greedyPlan(items, rippings, places, penalty, kerf_mm);
  let bound = simpleBound(items, places, penalty);
  if (places.length > 0 && places.length <= mostWhole) {
    const whole = await solveProgram(items, rippings, places, { ...options, isWhole: true });
    if (whole.chosen && whole.chosen.cost < chosen.cost + 1e-9) chosen = whole.chosen;
    if (whole.bound !== undefined) bound = whole.bound;
    else
      bound = Math.max(
        bound,
        (await solveProgram(items, rippings, places, { ...options, isWhole: false })).bound ?? bound,
      );
  } else if (places.length > 0 && places.length <= mostRelaxed) {
    const relaxed = await solveProgram(items, rippings, places, { ...options, isWhole: false });
    bound = Math.max(bound, relaxed.bound ?? bound);
  }
  return answerOf(question, items, rippings, places, chosen, bound, penalty, kerf_mm);
}

function largestCosts(places: readonly Place[]): number[] {
  const most: number[] = [];
  for (const { item, cost } of places) most[item] = Math.max(most[item] ?? 0, cost);
  return most.map((one) => one ?? 0);
}

/** Each item at its cheapest, and no board opened wider than what is cut from it. */
function simpleBound(items: readonly Item[], places: readonly Place[], penalty: number): number {
  const least = items.map(() => Number.POSITIVE_INFINITY);
  for (const { item, cost } of places) least[item] = Math.min(least[item]!, cost);
  const lost = new Set(items.flatMap(({ panel }, i) => (least[i] === Number.POSITIVE_INFINITY ? [panel] : [])));
  const kept = items.reduce((sum, { panel, area_dm2 }, i) => (lost.has(panel) ? sum : sum + least[i]! + area_dm2), 0);
  return kept + penalty * lost.size;
}

function answerOf(
  question: PanelsQuestion,
  items: readonly Item[],
  rippings: readonly Ripping[],
  places: readonly Place[],
  chosen: Chosen,
  bound: number,
  penalty: number,
  kerf_mm: number,
): PanelsAnswer {
  const { boards, panels, keep_mm = 300 } = question;
  const reached = new Map<string, number>();
  const cuts = chosen.places.map((k) => {
    const { item, ripping, strip } = places[k]!;
    const [{ panel, stave, length_mm, width_mm }, { from_mm, strips_mm, board }] = [items[item]!, rippings[ripping]!];
    const key = `${ripping} ${strip}`;
    const begun_mm = reached.get(key) ?? from_mm;
    reached.set(key, begun_mm + length_mm + kerf_mm);
    const across_mm = strips_mm.slice(0, strip).reduce((sum, one) => sum + one + kerf_mm, 0);
    const wanted = panels[panel]!;
    return {
      case: wanted.case,
      panel: wanted.name,
      stave: stave + 1,
      board: boards[board]!.id,
      from_mm: begun_mm,
      to_mm: begun_mm + length_mm,
      across_mm,
      width_mm,
      movement_mm: movementOf(wanted, boards[board]!) / (wanted.staves ?? 1),
      dryBy_pct: boards[board]!.moisture_pct - wanted.target_pct,
    };
  });
  const opened = [...new Set(chosen.places.map((k) => places[k]!.ripping))];
  const placed = new Set(chosen.places.map((k) => items[places[k]!.item]!.panel));
  const unplaced = panels.flatMap((panel, p) =>
    placed.has(p) ? [] : [{ case: panel.case, panel: panel.name, why: whyNot(question, p, items, places) }],
  );
  const openedBoards = [...new Set(opened.map((r) => rippings[r]!.board))].map((b) => {
    const here = opened.filter((r) => rippings[r]!.board === b);
    const offcuts = here.flatMap((r) =>
      rippings[r]!.strips_mm.flatMap((_, strip) => {
        const { from_mm, length_mm } = rippings[r]!;
        const left_mm = from_mm + length_mm - (reached.get(`${r} ${strip}`) ?? from_mm);
        return left_mm >= keep_mm ? [{ left_mm, width_mm: rippings[r]!.strips_mm[strip]! }] : [];
      }),
    );
    const used = chosen.places.filter((k) => rippings[places[k]!.ripping]!.board === b);
    return {
      board: boards[b]!.id,
      opened_dm2: here.reduce((sum, r) => sum + rippings[r]!.area_dm2, 0),
      used_dm2: used.reduce((sum, k) => sum + items[places[k]!.item]!.area_dm2, 0),
      kept_dm2: offcuts.reduce((sum, { left_mm, width_mm }) => sum + (left_mm * width_mm) / 1e4, 0),
      offcuts_mm: offcuts.map(({ left_mm }) => left_mm),
    };
  });
  const opened_dm2 = openedBoards.reduce((sum, one) => sum + one.opened_dm2, 0);
  const isBest = chosen.cost - bound < 1e-4;
  const inPlan = (cost: number) => cost - penalty * unplaced.length;
  return {
    cuts,
    unplaced,
    boards: openedBoards.map(({ kept_dm2: _, ...one }) => one),
    opened_dm2,
    wasted_dm2: openedBoards.reduce((sum, one) => sum + one.opened_dm2 - one.used_dm2 - one.kept_dm2, 0),
    movement_mm: cuts.reduce((sum, { movement_mm }) => sum + movement_mm, 0),
    cost: inPlan(chosen.cost),
    bound: Math.max(0, inPlan(bound)),
    optimal: isBest,
    notes: [
      isBest
        ? "No plan places more panels, or as many at less."
        : "Made by hand's rule or cut short by the clock; the bound says what could be gained at most.",
      `Sizes hold allowances and a ${kerf_mm} mm kerf. Offcuts from ${keep_mm} mm on count as kept, not wasted.`,
      "Look at every board again before it is cut: a hidden check or a run of grain decides, not this plan.",
    ],
  };
}

function whyNot(
  { panels, boards, allowance }: PanelsQuestion,
  p: number,
  items: readonly Item[],
  places: readonly Place[],
): string {
  const mine = items.flatMap((item, i) => (item.panel === p ? [i] : []));
  if (mine.every((i) => places.some(({ item }) => item === i)))
    return "all boards that would do are taken by other panels";
  const reasons = boards.map((board) => unfit(panels[p]!, board, { ...usualAllowance, ...allowance }) ?? "size");
  if (reasons.every((reason) => reason === "species")) return `no board of ${panels[p]!.species}`;
  const nearest = ["size", "ring angle", "figure", "thickness"].find((reason) => reasons.includes(reason)) ?? "species";
  return nearest === "size"
    ? `no clear stretch is long and wide enough; glue it up from staves, or take a longer board`
    : `no board of this species meets its ${nearest}`;
}

function requirePanels({ boards, panels }: PanelsQuestion): void {
  boards.forEach((board, i) => {
    speciesNamed(board.species, `boards[${i}].species`);
    for (const name of ["length_mm", "width_mm", "thickness_mm"] as const) {
      if (!(board[name] > 0))
        throw new BadInput(`boards[${i}].${name}`, quote(board[name]), "above 0", "measure the board");
    }
  });
  const seen = new Set<string>();
  panels.forEach((panel, i) => {
    speciesNamed(panel.species, `panels[${i}].species`);
    const key = `${panel.case}/${panel.name}`;
    if (seen.has(key))
      throw new BadInput(`panels[${i}].name`, quote(panel.name), "each panel of a case once", "give it another name");
    seen.add(key);
    for (const name of ["length_mm", "width_mm", "thickness_mm"] as const) {
      if (!(panel[name] > 0))
        throw new BadInput(`panels[${i}].${name}`, quote(panel[name]), "above 0", "give the finished size");
    }
  });
}
