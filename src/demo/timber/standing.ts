import { on } from "../days.ts";
import type { BoardBook, BoardTruth } from "./boards.ts";
import { panelsOf } from "./plan.ts";
import { markBoards, planOf } from "./plans.ts";

const wide = { ...panelsOf("Flood").board, thickness_mm: 24 };
const small = { ...panelsOf("Ebb").board, thickness_mm: 24 };
const thick = { ...small, thickness_mm: 30 };

/** Boards that stand in the shop now: rough ones, a chamber full, a plate, and some that wait to be sawn. */
export function standingBoards(book: BoardBook): readonly BoardTruth[] {
  const rough = [
    ...["white ash", "white ash", "black cherry", "American elm", "doussié"].map((species, i) =>
      book.receive(`rough ${i}`, on("2027-02-22", `10:${10 + i}`), small, { species }),
    ),
    // No offcut of these was dried yet, and one is of a wood that no list has.
    ...["sugar maple", "doussié"].map((species, i) =>
      book.receive(`new ${i}`, on("2027-03-01", `10:${10 + i}`), wide, { species, offcut: false }),
    ),
    book.receive("garden", on("2027-02-15", "11:00"), small, { species: "rowan", start_pct: 15.5 }),
  ];
  const warm = [
    ...[0, 1].map((i) =>
      book.receive(`flood ash ${i}`, on("2027-02-26", `11:${10 + i}`), wide, {
        species: "white ash",
        ringAngle_deg: 78,
      }),
    ),
    ...[0, 1].map((i) =>
      book.receive(`japan ${i}`, on("2027-01-25", `10:${10 + i}`), small, { species: "sugar maple" }),
    ),
    ...[0, 1].map((i) =>
      book.receive(`desert ${i}`, on("2027-01-25", `10:${30 + i}`), small, { species: "black cherry" }),
    ),
    ...[0, 1, 2, 3].map((i) =>
      book.receive(`alps ${i}`, on("2027-02-01", `10:${10 + i}`), wide, { species: "American elm" }),
    ),
    ...[0, 1].map((i) => book.receive(`thick ${i}`, on("2027-02-01", `10:${30 + i}`), thick, { species: "doussié" })),
  ];
  const hot = [0, 1, 2, 3].map((i) =>
    book.receive(`plate ${i}`, on("2027-01-18", `10:${10 + i}`), small, {
      species: i < 2 ? "sugar maple" : "black cherry",
    }),
  );
  const rested = [0, 1, 2, 3, 4, 5].map((i) =>
    book.receive(`rested ${i}`, on("2027-01-11", `10:${10 + i}`), i < 2 ? wide : small, {
      species: i < 2 ? "American elm" : i < 4 ? "white ash" : "sugar maple",
    }),
  );

  const meant = (boards: readonly BoardTruth[], unit: string, at: string) =>
    book.writeOfAll(boards, at, { kind: "meant", unit });
  meant(warm.slice(0, 2), "0590", on("2027-02-26", "11:30"));
  meant(warm.slice(2, 4), "0420", on("2027-02-02", "13:00"));
  meant(warm.slice(4, 6), "0421", on("2027-02-10", "13:00"));
  meant(warm.slice(6, 8), "0591", on("2027-02-22", "13:00"));
  meant(warm.slice(8, 10), "0592", on("2027-02-22", "13:00"));
  meant(hot.slice(0, 2), "0420", on("2027-02-22", "13:05"));
  meant(hot.slice(2), "0421", on("2027-02-22", "13:10"));
  meant(rested.slice(0, 2), "0591", on("2027-02-22", "13:15"));

  for (const board of warm) book.weigh(board, on("2027-03-01", "16:30"));
  book.move(warm, on("2027-03-01", "17:00"), "chamber");
  for (const clock of ["08:10", "16:10"]) for (const board of warm) book.weigh(board, on("2027-03-02", clock));
  for (const board of warm.slice(0, 8)) book.weigh(board, on("2027-03-03", "08:05"));

  book.move(hot, on("2027-02-26", "17:00"), "chamber");
  for (const board of hot) book.weigh(board, on("2027-03-02", "16:40"));
  book.move(hot, on("2027-03-02", "17:00"), "plate");
  for (const board of hot) book.inspect(board, on("2027-03-03", "07:00"), "first night", "on the plate");
  for (const board of hot) book.weigh(board, on("2027-03-03", "07:10"));

  book.move(rested, on("2027-02-19", "17:00"), "chamber");
  book.move(rested, on("2027-02-22", "08:00"), "shop");
  book.move(rested, on("2027-02-22", "17:00"), "plate");
  for (const board of rested) book.inspect(board, on("2027-02-23", "07:00"), "first night", "on the plate");
  for (const board of rested) book.inspect(board, on("2027-02-24", "06:45"), "second day", "on the plate");
  book.move(rested, on("2027-02-24", "07:00"), "shop");
  for (const board of rested) book.weigh(board, on("2027-02-24", "09:00"));
  for (const board of rested) book.weigh(board, on("2027-03-01", "09:00"));

  const all = [...rough, ...warm, ...hot, ...rested];
  const find = (label: string) => all.find(({ piece }) => piece === label)!;
  markBoards(book, find);
  planOf(book, find);
  for (const board of all) book.until(board, on("2027-03-03", "08:30"));
  return all;
}
