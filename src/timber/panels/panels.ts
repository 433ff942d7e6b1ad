import { BadInput, quote } from "../../maths/badInput.ts";
import { speciesOf } from "../ownWood.ts";
import { type PanelsAnswer, type PanelsQuestion, usualAllowance, usualWorth } from "./ask.ts";
import { greedyPlan } from "./greedy.ts";
import { type Part, partsOf } from "./parts.ts";
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
    ripping.bays.flatMap(({ width_mm, length_mm }, bay) =>
      items.flatMap((item, i): Place[] => {
        const cost = counts[item.panel]![ripping.board];
        const isFit = item.width_mm <= width_mm + 1e-9 && item.length_mm <= length_mm;
        return isFit && cost !== undefined ? [{ item: i, ripping: r, bay, cost }] : [];
      }),
    ),
  );
  const matched = matchedOf(question);
  const parts = partsOf(items, rippings, places, matched);
  const seconds = Math.min(question.seconds ?? 6, 60);
  const plans: Planned[] = [];
  for (const part of parts) {
    const share = Math.max(1 / parts.length, part.places.length / Math.max(1, places.length));
    plans.push(await planPart(part, { matched, kerf_mm, seconds: seconds * share }));
  }
  const sum = (of: (plan: Planned) => number) => plans.reduce((total, plan) => total + of(plan), 0);
  const chosen = plans.flatMap((plan, i) => plan.chosen.places.map((k) => parts[i]!.whole[k]!));
  // Each part's own penalty for a panel left out is taken off again: what is told is of the panels that are placed.
  const told = { cost: sum(({ cost }) => cost), bound: sum(({ bound }) => bound) };
  return answerOf(question, items, rippings, places, chosen, told, plans.every(isProved), kerf_mm);
}

/** Panels of a case that name the same word, by their numbers. */
function matchedOf({ panels }: PanelsQuestion): number[][] {
  const groups = new Map<string, number[]>();
  panels.forEach(({ case: of, matched }, p) => {
    if (matched === undefined) return;
    const key = JSON.stringify([of, matched]);
    groups.set(key, [...(groups.get(key) ?? []), p]);
  });
  return [...groups.values()].filter((group) => group.length > 1);
}

interface Planned {
  readonly chosen: Chosen;
  /** Of what is placed, without penalties. */
  readonly cost: number;
  readonly bound: number;
}

const isProved = ({ cost, bound }: Planned) => cost - bound < 1e-4;

async function planPart(
  { items, rippings, places }: Part,
  { matched: all, kerf_mm, seconds }: { matched: readonly (readonly number[])[]; kerf_mm: number; seconds: number },
): Promise<Planned> {
  const panels = new Set(items.map(({ panel }) => panel));
  const matched = all.filter(([first]) => panels.has(first!));
  const opened_dm2 = new Map(rippings.map(({ segment, area_dm2 }) => [segment, area_dm2]));
  const whole_dm2 = [...opened_dm2.values()].reduce((sum, one) => sum + one, 0);
  const penalty = 1 + whole_dm2 + largestCosts(places).reduce((sum, one) => sum + one, 0);
  const options = { penalty, kerf_mm, seconds, matched };
  let chosen = greedyPlan(items, rippings, places, penalty, kerf_mm, matched);
  let bound = simpleBound(items, places, penalty);
  const relaxed = () => solveProgram(items, rippings, places, { ...options, isWhole: false });
  if (places.length > 0 && places.length <= mostWhole) {
    const whole = await solveProgram(items, rippings, places, { ...options, isWhole: true });
    if (whole.chosen && whole.chosen.cost < chosen.cost + 1e-9) chosen = whole.chosen;
    bound = whole.bound ?? Math.max(bound, (await relaxed()).bound ?? bound);
  } else if (places.length > 0 && places.length <= mostRelaxed) {
    bound = Math.max(bound, (await relaxed()).bound ?? bound);
  }
  const placed = new Set(chosen.places.map((k) => items[places[k]!.item]!.panel));
  const left = penalty * (panels.size - placed.size);
  return { chosen, cost: chosen.cost - left, bound: Math.min(chosen.cost, bound) - left };
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
  chosen: readonly number[],
  { cost, bound }: { readonly cost: number; readonly bound: number },
  isBest: boolean,
  kerf_mm: number,
): PanelsAnswer {
  const { boards, panels, keep_mm = 300 } = question;
  const reached = new Map<string, number>();
  const cuts = chosen.map((k) => {
    const { item, ripping, bay } = places[k]!;
    const [{ panel, stave, length_mm, width_mm }, { bays, board }] = [items[item]!, rippings[ripping]!];
    const { from_mm, across_mm } = bays[bay]!;
    const key = `${ripping} ${bay}`;
    const begun_mm = reached.get(key) ?? from_mm;
    reached.set(key, begun_mm + length_mm + kerf_mm);
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
  const opened = [...new Set(chosen.map((k) => places[k]!.ripping))];
  const placed = new Set(chosen.map((k) => items[places[k]!.item]!.panel));
  const unplaced = panels.flatMap((panel, p) =>
    placed.has(p) ? [] : [{ case: panel.case, panel: panel.name, why: whyNot(question, p, items, places) }],
  );
  const openedBoards = [...new Set(opened.map((r) => rippings[r]!.board))].map((b) => {
    const here = opened.filter((r) => rippings[r]!.board === b);
    const offcuts = here.flatMap((r) =>
      rippings[r]!.bays.flatMap(({ from_mm, length_mm, width_mm }, bay) => {
        const left_mm = from_mm + length_mm - (reached.get(`${r} ${bay}`) ?? from_mm);
        return left_mm >= keep_mm ? [{ left_mm, width_mm }] : [];
      }),
    );
    const used = chosen.filter((k) => rippings[places[k]!.ripping]!.board === b);
    return {
      board: boards[b]!.id,
      opened_dm2: here.reduce((sum, r) => sum + rippings[r]!.area_dm2, 0),
      used_dm2: used.reduce((sum, k) => sum + items[places[k]!.item]!.area_dm2, 0),
      kept_dm2: offcuts.reduce((sum, { left_mm, width_mm }) => sum + (left_mm * width_mm) / 1e4, 0),
      offcuts_mm: offcuts.map(({ left_mm }) => left_mm),
    };
  });
  const opened_dm2 = openedBoards.reduce((sum, one) => sum + one.opened_dm2, 0);
  return {
    cuts,
    unplaced,
    boards: openedBoards.map(({ kept_dm2: _, ...one }) => one),
    opened_dm2,
    wasted_dm2: openedBoards.reduce((sum, one) => sum + one.opened_dm2 - one.used_dm2 - one.kept_dm2, 0),
    movement_mm: cuts.reduce((sum, { movement_mm }) => sum + movement_mm, 0),
    cost,
    bound: Math.max(0, bound),
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
    return panels[p]!.matched === undefined
      ? "all boards that would do are taken by other panels"
      : "no one board has room left for it and all that are to match it";
  const reasons = boards.map((board) => unfit(panels[p]!, board, { ...usualAllowance, ...allowance }) ?? "size");
  if (reasons.every((reason) => reason === "species")) return `no board of ${panels[p]!.species}`;
  const nearest = ["size", "ring angle", "figure", "thickness"].find((reason) => reasons.includes(reason)) ?? "species";
  return nearest === "size"
    ? `no clear stretch is long and wide enough; glue it up from staves, or take a longer board`
    : `no board of this species meets its ${nearest}`;
}

function requirePanels({ boards, panels }: PanelsQuestion): void {
  boards.forEach((board, i) => {
    speciesOf(board.species, board.wood, `boards[${i}].species`, `boards[${i}].wood`);
    for (const name of ["length_mm", "width_mm", "thickness_mm"] as const) {
      if (!(board[name] > 0))
        throw new BadInput(`boards[${i}].${name}`, quote(board[name]), "above 0", "measure the board");
    }
    for (const [k, { from_mm, to_mm, across }] of (board.defects ?? []).entries()) {
      const bad = to_mm <= from_mm ? "to_mm" : across && across.to_mm <= across.from_mm ? "across.to_mm" : undefined;
      if (bad)
        throw new BadInput(
          `boards[${i}].defects[${k}].${bad}`,
          quote(bad === "to_mm" ? to_mm : across!.to_mm),
          `above ${bad === "to_mm" ? from_mm : across!.from_mm}, where it begins`,
          "measure both ends of it from the same end or edge",
        );
    }
  });
  const seen = new Set<string>();
  panels.forEach((panel, i) => {
    speciesOf(panel.species, panel.wood, `panels[${i}].species`, `panels[${i}].wood`);
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
