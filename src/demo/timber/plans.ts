import type { BodyOf } from "../../claims/evidence.ts";
import { on } from "../days.ts";
import { type DemoEntry, entry } from "../entry.ts";
import { roles } from "../shop.ts";
import type { BoardBook, BoardTruth } from "./boards.ts";
import { places } from "./boards.ts";

/** Boards that stand here and go on as the woodworker wrote down this morning. */
export function planOf(book: BoardBook, find: (label: string) => BoardTruth): void {
  const plan = (labels: readonly string[], begins: string, stages: BodyOf<"planned-stages">["stages"]) =>
    book.writeOfAll(labels.map(find), on("2027-03-03", "08:10"), { kind: "planned-stages", begins, stages });
  // Elm rests a day between the chamber and the plate, as boards of the autumn that cracked did not.
  plan(["alps 0", "alps 1", "alps 2", "alps 3"], on("2027-03-03", "16:30"), [
    { place: places.shop, hours: 24 },
    { place: places.plate, hours: 36 },
    { place: places.shop, hours: 48 },
  ]);
  plan(["japan 0", "japan 1"], on("2027-03-04", "16:30"), [
    { place: places.plate, hours: 38 },
    { place: places.shop, hours: 24, machinedTo_mm: 20 },
  ]);
}

/** The case that is under oil, and a soak that was wished for too early. */
export const finishPlans: readonly DemoEntry[] = [
  entry(on("2027-03-02", "15:40"), roles.wood, {
    kind: "finish-plan",
    unit: "0422",
    begins: on("2027-03-02", "16:30"),
    who: roles.wood,
    coats: [
      { finish: "oil", product: "hardening oil", coats: 3, between_h: 24, hardens_h: 72 },
      { finish: "wax", coats: 1 },
    ],
  }),
  entry(on("2027-03-02", "15:45"), roles.wood, {
    kind: "planned-stages",
    pieces: [],
    unit: "0422",
    begins: on("2027-03-05", "15:00"),
    stages: [{ place: places.soak, hours: 40 }],
  }),
];

type Marks = Pick<BodyOf<"board-marks">, "defects" | "figure">;
const knot = (from_mm: number, size_mm: number, edge_mm: number): Marks["defects"][number] => ({
  what: "knot",
  along: { from_mm, to_mm: from_mm + size_mm },
  across: { from_mm: edge_mm, to_mm: edge_mm + size_mm },
});
const whole = (what: "check" | "other", from_mm: number, to_mm: number): Marks["defects"][number] => ({
  what,
  along: { from_mm, to_mm },
});

/** What the woodworker saw on boards that wait to be sawn, from the end and the edge with the number on it. */
const seen: readonly { readonly label: string; readonly marks: Marks }[] = [
  { label: "alps 0", marks: { defects: [knot(838, 40, 120)], figure: 1 } },
  { label: "alps 1", marks: { defects: [whole("check", 0, 45)], figure: 1 } },
  { label: "alps 3", marks: { defects: [], figure: 2 } },
  { label: "rested 0", marks: { defects: [knot(430, 30, 250), whole("check", 895, 920)], figure: 3 } },
  { label: "rested 4", marks: { defects: [knot(360, 25, 10)], figure: 2 } },
  {
    label: "japan 1",
    marks: {
      defects: [
        { what: "sapwood", along: { from_mm: 0, to_mm: 780 }, across: { from_mm: 195, to_mm: 223 } },
        knot(505, 22, 40),
      ],
      figure: 0,
    },
  },
  { label: "desert 0", marks: { defects: [whole("check", 745, 780), knot(300, 18, 190)], figure: 2 } },
];

export function markBoards(book: BoardBook, find: (label: string) => BoardTruth): void {
  for (const [i, { label, marks }] of seen.entries())
    book.write(find(label), on("2027-03-02", `13:${20 + i}`), { kind: "board-marks", ...marks });
}
