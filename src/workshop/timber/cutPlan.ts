import type { Shop } from "../../claims/index.ts";
import type { PanelsAnswer } from "../../timber/index.ts";
import type { Calculate } from "../calculate.ts";
import { boundShop } from "./boundShop.ts";
import { type Band, boundOf } from "./destination.ts";
import { lacksMovement, ownWoodOf } from "./ownWood.ts";
import type { CutPlanView, PieceCardView } from "./views.ts";

type Wood = { readonly species: string; readonly width_mm: number; readonly thickness_mm: number };
type BandOf = (wood: Wood, climate: NonNullable<ReturnType<typeof boundOf>["climate"]>) => Promise<Band>;

/** The page does not wait longer for a better plan. */
const most_s = 3;

/**
 * Which piece of which board becomes which panel, over all units whose panels are written down and whose case is not
 * made yet. A board whose moisture is not known, that is cracked or kept for another unit is left aside with its
 * reason.
 */
export async function cutPlan(
  shop: Shop,
  cards: readonly PieceCardView[],
  bandOf: BandOf,
  calculate: Calculate,
): Promise<CutPlanView> {
  const { timber } = shop;
  const wanted = timber.wanted.filter(({ body }) => timber.caseOfUnit(body.unit) === undefined);
  const units = await Promise.all(
    wanted.map(async ({ body }) => {
      const { place, climate } = boundOf(boundShop(shop), body.unit);
      const placed = { unit: body.unit, ...(place !== undefined && { place }), panels: body.panels.length };
      if (!climate)
        return {
          placed,
          ask: [],
          wanting: `Nothing says what air unit ${body.unit} goes to: write it down under “Air of its rooms” on the page of its case.`,
        };
      const ask = await Promise.all(
        body.panels.map(async ({ panel, species, length_mm, width_mm, thickness_mm, staves, figure, matched }) => {
          const { driest_pct, wettest_pct } = await bandOf({ species, width_mm, thickness_mm }, climate);
          const target_pct = tenth((driest_pct + wettest_pct) / 2);
          return {
            ...{
              case: body.unit,
              name: panel,
              species,
              ...ownWoodOf(timber, { species }),
              length_mm,
              width_mm,
              thickness_mm,
              target_pct,
            },
            ...(staves !== undefined && { staves }),
            ...(figure !== undefined && { figure }),
            ...(matched !== undefined && { matched }),
            span_pct: tenth((wettest_pct - driest_pct) / 2),
          };
        }),
      );
      return { placed, ask };
    }),
  );
  const panels = units.flatMap(({ ask }) => ask);
  const named = new Set(units.map(({ placed }) => placed.unit));
  const aside = cards.flatMap((card) => {
    const why = whyAside(card, named, shop);
    return why === undefined ? [] : [{ piece: card.piece, why }];
  });
  const kept = new Set(aside.map(({ piece }) => piece));
  const boards = cards.filter(({ piece }) => !kept.has(piece));
  const base = {
    units: units.map(({ placed, wanting }) => ({ ...placed, ...(wanting !== undefined && { wanting }) })),
    aside,
    open: openUnits(shop).filter((unit) => !named.has(unit)),
  };
  if (panels.length === 0 || boards.length === 0) {
    return {
      ...base,
      boards: [],
      unplaced: panels.map(({ case: unit, name }) => ({ unit, panel: name, why: "no board can be sawn" })),
      notes: [],
    };
  }
  const answer = await calculate<PanelsAnswer>("timber.panels", {
    boards: boards.map(({ piece, species, length_mm, width_mm, thickness_mm, ringAngle_deg, moisture }) => {
      const { defects = [], figure } = timber.state(piece)!;
      return {
        ...{ id: piece, species, ...ownWoodOf(timber, { species }), length_mm, width_mm, thickness_mm, ringAngle_deg },
        moisture_pct: tenth(moisture!.mean_pct),
        ...(defects.length > 0 && {
          defects: defects.map(({ along, across }) => ({ ...along, ...(across && { across }) })),
        }),
        ...(figure !== undefined && { figure }),
      };
    }),
    panels,
    seconds: most_s,
  });
  const staves = new Map(panels.map((panel) => [`${panel.case} ${panel.name}`, "staves" in panel ? panel.staves : 1]));
  return {
    ...base,
    boards: answer.boards.map(({ board, ...areas }) => {
      const { species, length_mm, width_mm, thickness_mm, ringAngle_deg, moisture, place } = boards.find(
        ({ piece }) => piece === board,
      )!;
      return {
        ...{ board, species, length_mm, width_mm, thickness_mm, ringAngle_deg, place, ...areas },
        moisture_pct: moisture!.mean_pct,
        defects: timber.state(board)!.defects ?? [],
        ...(timber.state(board)!.figure !== undefined && { figure: timber.state(board)!.figure }),
        cuts: answer.cuts
          .filter((cut) => cut.board === board)
          .toSorted((a, b) => a.across_mm - b.across_mm || a.from_mm - b.from_mm)
          .map(({ case: unit, board: _, ...cut }, i) => ({
            ...cut,
            unit,
            staves: staves.get(`${unit} ${cut.panel}`) ?? 1,
            piece: `${board}.${i + 1}`,
          })),
      };
    }),
    unplaced: answer.unplaced.map(({ case: unit, panel, why }) => ({ unit, panel, why })),
    sum: {
      opened_dm2: answer.opened_dm2,
      wasted_dm2: answer.wasted_dm2,
      movement_mm: answer.movement_mm,
      words: answer.optimal
        ? "No other way of cutting places more panels, or as many for less board, movement and drying."
        : `The best found in a few seconds, not proved: at most ${Math.max(0, answer.cost - answer.bound).toFixed(0)} dm² of board could still be saved.`,
    },
    notes: answer.notes.slice(1),
  };
}

function whyAside(card: PieceCardView, units: ReadonlySet<string>, { timber }: Shop): string | undefined {
  if (card.moisture === undefined || card.moisture.basis === "approach") return "its moisture is not known";
  if (lacksMovement(timber, card)) return `no source tells how far ${card.species} moves`;
  const isMarked = timber.state(card.piece)?.defects !== undefined;
  if (!isMarked && card.flaws.some((flaw) => flaw.startsWith("crack")))
    return "it is cracked, and nobody wrote down where";
  if (card.meantFor !== undefined && !units.has(card.meantFor)) return `it is kept for ${card.meantFor}`;
  return card.from === undefined ? undefined : "it is sawn already";
}

/** Units that have no case yet. */
function openUnits(shop: Shop): readonly string[] {
  const ordered = [...shop.orders.values()].flatMap(({ body }) => body.units);
  return [...new Set([...shop.units.keys(), ...ordered])].filter(
    (unit) => !shop.isReleased(unit) && shop.timber.caseOfUnit(unit) === undefined,
  );
}

function tenth(value: number): number {
  return Number(value.toFixed(1));
}
