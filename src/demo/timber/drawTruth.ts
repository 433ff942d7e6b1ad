import type { BoardTruth } from "./boards.ts";
import type { TimberTruth } from "./truth.ts";

/** Boards of the shop go on the plate below this when they had their whole time in the chamber. */
const wet_pct = 11.6;

export function timberTruth(used: readonly BoardTruth[], standing: readonly BoardTruth[]): TimberTruth {
  const cracked = [...used, ...standing].filter(({ crack }) => crack !== undefined);
  const share = (test: (board: BoardTruth) => boolean) => cracked.filter(test).length / cracked.length;
  return {
    boards: standing.map(({ piece, wood }) => ({ piece, mean_pct: wood.mean_pct })),
    cases: [
      {
        unit: "0590",
        verdict: "refuted",
        remedy: ["slot", "quarter-sawn"],
        story: "an ash case at 11 % sealed for the prairie: its top, fixed at both edges, would lose millimetres",
      },
      {
        unit: "0419",
        verdict: "proven",
        remedy: ["not dry it further"],
        story: "its sister bound for Singapore should not be dried further",
      },
    ],
    cracks: {
      cracked: cracked.length,
      firstNight: share(({ crack }) => crack === "first night"),
      secondDay: share(({ crack }) => crack === "second day"),
      wet_pct,
      wetShare: share(({ laid }) => (laid?.mean_pct ?? 0) > wet_pct),
      story: "most cracks open in the first fourteen plate hours, the second day shows almost none",
    },
  };
}
