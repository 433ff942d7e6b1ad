import type { BodyOf } from "../../claims/evidence.ts";
import type { Random } from "../../maths/random.ts";
import { later, on } from "../days.ts";
import { entry, shown } from "../entry.ts";
import { roles } from "../shop.ts";
import { type BoardTruth, hairlineOnSoak, type Written } from "./boards.ts";
import { type CasePlan, panelsOf } from "./plan.ts";

const day_min = 24 * 60;
/** Room for panels to swell into, the wide ones more. */
const gap_mm = (width_mm: number) => (width_mm > 250 ? 6 : width_mm > 200 ? 4.5 : 3);

/** Boards sawn into panels, joined, coated and given to a unit; what its soak shows. */
export function caseBook(plan: CasePlan, boards: readonly BoardTruth[], chance: Random): readonly Written[] {
  const draw = chance.fork(`joining ${plan.case}`);
  const sizes = panelsOf(plan.model);
  const { paper } = plan;
  const wood = (at: string, body: object): Written => ({ entry: entry(at, roles.wood, body as never), paper });
  const cut = [sizes.first, sizes.second].flatMap((panels, i) =>
    panels.map((panel, j) => ({ ...panel, board: boards[i]!, piece: `${boards[i]!.piece}.${j + 1}` })),
  );
  const sawnAt = later(on(plan.joined, "14:00"), -day_min);
  const angle = (board: BoardTruth) => (board.entries[0]!.entry as unknown as { ringAngle_deg: number }).ringAngle_deg;
  const sawn = boards.map((board) =>
    wood(sawnAt, {
      kind: "sawn",
      piece: board.piece,
      into: cut
        .filter((one) => one.board === board)
        .map(({ piece, width_mm, length_mm }) => ({
          piece,
          width_mm,
          length_mm,
          thickness_mm: 20,
          ringAngle_deg: angle(board),
        })),
    }),
  );
  const joined: BodyOf<"case"> = {
    kind: "case",
    case: plan.case,
    panels: cut.map(({ panel, piece, board, width_mm }) => ({
      panel,
      piece,
      fixed: panel === "top" ? plan.top : "centre",
      gap_mm: panel === "top" && plan.top === "edges" ? 0 : gap_mm(width_mm),
      warm: panel === "top",
      ...(paper && {
        moisture_pct: shown(board.wood.mean_pct + draw.normal(0, 0.5), 1),
        doubt_pct: 1.5,
      }),
    })),
  };
  const pieces = cut.map(({ piece }) => piece);
  const finish = plan.coats.length > 1 && plan.top === "edges" ? "lacquer" : "oil";
  const coats = plan.coats.map((at) =>
    wood(at, {
      kind: "coat",
      pieces,
      // Once the case is the unit's, a coat is a coat on the unit.
      ...(Date.parse(at) >= Date.parse(plan.given) && !paper && { unit: plan.unit }),
      finish,
      product: finish === "oil" ? "hardening oil" : "clear lacquer",
      turn_h: finish === "oil" ? 16 : 4,
      hardens_h: finish === "oil" ? (plan.unit === "0422" ? 72 : 48) : 24,
    }),
  );
  const soaked = boards.filter((board) => hairlineOnSoak(board, plan));
  const soak = soaked.map((board) => {
    board.crack = "later";
    const piece = cut.find((one) => one.board === board)!.piece;
    // A case that cracked on its soak went into no unit: the unit's own soak found none. Others show under the oil.
    const [at, found] = plan.isRemade
      ? [later(on(plan.joined, "08:30"), 14 * day_min), "soak"]
      : [later(on(plan.joined, "15:30"), day_min), "oiling"];
    return wood(at, {
      kind: "flaw",
      piece,
      flaw: "crack",
      length_mm: Math.round(15 + 40 * draw.uniform()),
      found,
    });
  });
  return [
    ...sawn,
    wood(on(plan.joined, "11:00"), joined),
    ...coats,
    ...soak,
    wood(plan.given, { kind: "case-given", case: plan.case, unit: plan.unit }),
  ];
}
