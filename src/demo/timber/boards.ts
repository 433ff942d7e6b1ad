import type { BodyOf } from "../../claims/evidence.ts";
import type { Random } from "../../maths/random.ts";
import { later, on } from "../days.ts";
import { type DemoEntry, entry, shown } from "../entry.ts";
import { roles } from "../shop.ts";
import { Board, type Nature } from "./nature.ts";
import { type CasePlan, panelsOf } from "./plan.ts";
import type { Weather } from "./weather.ts";

const hour_ms = 3_600_000;
const day_min = 24 * 60;

export const places = {
  shop: "case shop",
  chamber: "warm chamber",
  plate: "hot plate",
  soak: "soak bench",
} as const;
export const plate_C = 90;

/** What the trade sells by a species' name, and how its boards differ. Density of dry wood. */
const kinds: Readonly<
  Record<
    string,
    { readonly dry_kg_m3: number; readonly pace: number; readonly movement: number; readonly seller: string }
  >
> = {
  "white ash": { dry_kg_m3: 610, pace: 0.9, movement: 0.00274, seller: "Inland sawmill" },
  "black cherry": { dry_kg_m3: 515, pace: 1.4, movement: 0.00248, seller: "Inland sawmill" },
  "sugar maple": { dry_kg_m3: 640, pace: 1.0, movement: 0.00353, seller: "Inland sawmill" },
  "American elm": { dry_kg_m3: 520, pace: 1.2, movement: 0.00338, seller: "Estate auction" },
  doussié: { dry_kg_m3: 740, pace: 0.7, movement: 0.0014, seller: "Harbour timber yard" },
};
const usual = Object.keys(kinds);

/** An entry, and whether it was typed in from the paper of the year before. */
export interface Written {
  readonly entry: DemoEntry;
  readonly paper: boolean;
}

/** A board as it really is, and what was written of it. */
export interface BoardTruth {
  piece: string;
  readonly species: string;
  readonly received: string;
  readonly entries: Written[];
  readonly wood: Board;
  readonly dry_g: number;
  /** When it was laid on the plate, and what it held then. */
  laid?: { readonly at: string; readonly mean_pct: number };
  crack?: "first night" | "second day" | "later";
  readonly paper: boolean;
  now_ms: number;
  place: keyof typeof places;
}

/** The wood's own life goes on by the clock; what hands do to it is written down. */
export class BoardBook {
  readonly boards: BoardTruth[] = [];

  constructor(
    private readonly weather: Weather,
    private readonly chance: Random,
  ) {}

  /** A rough board comes in: weighed, an offcut of it dried, left in the shop. */
  receive(
    label: string,
    received: string,
    size: { readonly length_mm: number; readonly width_mm: number; readonly thickness_mm: number },
    {
      species,
      ringAngle_deg,
      offcut = true,
      paper = false,
      start_pct,
    }: { species?: string; ringAngle_deg?: number; offcut?: boolean; paper?: boolean; start_pct?: number } = {},
  ): BoardTruth {
    const draw = this.chance.fork(label);
    const named = species ?? usual[draw.integer(usual.length)]!;
    const kind = kinds[named] ?? { dry_kg_m3: 660, pace: 1, movement: 0.0026, seller: "A neighbour's garden" };
    const nature: Nature = {
      pace: kind.pace * Math.exp(draw.normal(0, 0.3)),
      offset_pct: draw.normal(0, 0.35),
      // A wood that moves more is mostly one that stands more.
      strength: strengthAtPlate * (kind.movement / 0.0027) * Math.exp(draw.normal(0, 0.13)),
      movement: kind.movement,
    };
    const holds_pct = start_pct ?? draw.normal(13.4, 0.7);
    const litres = (size.length_mm * size.width_mm * size.thickness_mm) / 1e6;
    const board: BoardTruth = {
      piece: label,
      species: named,
      received,
      entries: [],
      wood: new Board(nature, size.thickness_mm, holds_pct),
      dry_g: litres * kind.dry_kg_m3 * Math.exp(draw.normal(0, 0.04)),
      paper,
      now_ms: Date.parse(received),
      place: "shop",
    };
    this.boards.push(board);
    const body: Omit<BodyOf<"blank">, "piece"> = {
      kind: "blank",
      rough: true,
      species: named,
      ...(kinds[named] ? {} : { density_kg_m3: 700 }),
      ...size,
      ringAngle_deg: ringAngle_deg ?? Math.round(90 * draw.uniform() ** 1.6),
      seller: kind.seller,
      ...(draw.uniform() < 0.4 && { claimed_pct: 12 }),
      papers: named === "doussié" && draw.uniform() < 0.5 ? ["origin declaration"] : [],
      place: places.shop,
    };
    this.write(board, received, body);
    this.weigh(board, later(received, 10));
    if (offcut) {
      const wet_g = shown(110 + 30 * draw.uniform(), 1);
      const ovenDry_g = shown(wet_g / (1 + (board.wood.mean_pct + draw.normal(0, 0.15)) / 100), 1);
      const cut = later(received, 12);
      this.write(board, later(received, 2 * day_min), { kind: "offcut", cut, wet_g, ovenDry_g, instrument: "balance" });
    }
    return board;
  }

  /** Lets the board lie where it is until then. */
  until(board: BoardTruth, at: string): void {
    const to_ms = Date.parse(at);
    while (board.now_ms < to_ms) {
      const step_ms = Math.min(to_ms - board.now_ms, board.place === "shop" ? 12 * hour_ms : 3 * hour_ms);
      const air = board.place === "chamber" ? this.weather.chamber(board.now_ms) : this.weather.at(board.now_ms);
      board.wood.stand(
        step_ms / hour_ms,
        board.place === "plate" ? { kind: "plate", plate_C, air } : { kind: "air", air },
      );
      board.now_ms += step_ms;
    }
  }

  move(boards: readonly BoardTruth[], at: string, place: keyof typeof places): void {
    for (const board of boards) {
      this.until(board, at);
      board.place = place;
      if (place === "plate") {
        board.wood.strain = 0;
        board.laid = { at, mean_pct: board.wood.mean_pct };
      }
    }
    this.writeOfAll(boards, at, { kind: "stood", place: places[place] });
  }

  weigh(board: BoardTruth, at: string): void {
    this.until(board, at);
    const noise_g = this.chance.fork(`${board.piece} ${board.received} ${at}`).normal(0, 0.04);
    const mass_g = shown(board.dry_g * (1 + board.wood.mean_pct / 100) + noise_g, 1);
    this.write(board, at, { kind: "weighing", mass_g, instrument: "balance" });
  }

  /** Looked over by the lamp: what has opened shows, a hairline only once it is sanded. */
  inspect(board: BoardTruth, at: string, when: NonNullable<BoardTruth["crack"]>, found: string): void {
    this.until(board, at);
    if (board.crack) return;
    const ratio = board.wood.strain / board.wood.nature.strength;
    if (ratio <= (when === "later" ? hairline : 1)) return;
    board.crack = when;
    const draw = this.chance.fork(`${board.piece} ${board.received} crack`);
    this.write(board, at, { kind: "flaw", flaw: "crack", length_mm: Math.round(20 + 70 * draw.uniform()), found });
  }

  write(board: BoardTruth, at: string, body: Partial<BodyOf<"blank">> | object): void {
    const named = { ...body, piece: board.piece };
    board.entries.push({ entry: entry(at, roles.wood, named as never), paper: board.paper });
  }

  private readonly shared: { readonly boards: readonly BoardTruth[]; readonly at: string; readonly body: object }[] =
    [];

  writeOfAll(boards: readonly BoardTruth[], at: string, body: object): void {
    this.shared.push({ boards, at, body });
  }

  /** Numbers the boards as they came in. */
  number(): void {
    const inOrder = this.boards.toSorted((a, b) => Date.parse(a.received) - Date.parse(b.received));
    for (const [i, board] of inOrder.entries()) board.piece = `A-${String(i + 1).padStart(3, "0")}`;
  }

  /** All that was written of the boards, under their numbers. */
  close(): readonly Written[] {
    const own = this.boards.flatMap((board) =>
      board.entries.map(({ entry: one, paper }) => ({ entry: { ...one, piece: board.piece } as DemoEntry, paper })),
    );
    const shared = this.shared.map(({ boards, at, body }) => ({
      entry: entry(at, roles.wood, { ...body, pieces: boards.map(({ piece }) => piece) } as never),
      paper: boards.every(({ paper }) => paper),
    }));
    return [...own, ...shared];
  }
}

/** What parts most boards, as the demo's nature counts it, and the share of it that leaves a hairline. */
const strengthAtPlate = 3.64;
const hairline = 0.976;

/** The way of one case's boards, from coming in to being panels. */
export function throughTheShop(book: BoardBook, plan: CasePlan, chance: Random): readonly BoardTruth[] {
  const panels = panelsOf(plan.model);
  const at = (days: number, clock: string) => later(on(plan.joined, clock), -days * day_min);
  const draw = chance.fork(plan.case);
  const species = plan.species ?? usual[draw.integer(usual.length)]!;
  const boards = [0, 1].map((i) =>
    book.receive(
      `${plan.case} ${i}`,
      at(39, i === 0 ? "10:00" : "10:20"),
      { ...panels.board, thickness_mm: 24 },
      {
        species,
        paper: plan.paper,
        ...(plan.top === "edges" && { ringAngle_deg: i === 0 ? 8 : 30 }),
      },
    ),
  );
  if (plan.downTo_pct !== undefined) {
    // Both come out together, when the first of them is down.
    const began = at(5, "08:00");
    book.move(boards, began, "chamber");
    let hours = 0;
    while (boards[0]!.wood.mean_pct > plan.downTo_pct && hours < 66) {
      hours += 1;
      for (const board of boards) book.until(board, later(began, hours * 60));
    }
    book.move(boards, later(began, hours * 60), "shop");
  } else {
    const out = at(8, "08:00");
    book.move(boards, later(out, -plan.chamber_h * 60), "chamber");
    book.move(boards, out, "shop");
  }
  if (plan.plated) {
    book.move(boards, at(4, "17:00"), "plate");
    for (const board of boards) book.inspect(board, at(3, "07:00"), "first night", "on the plate");
    for (const board of boards) book.inspect(board, at(2, "06:45"), "second day", "on the plate");
    book.move(boards, at(2, "07:00"), "shop");
  }
  for (const board of boards) book.weigh(board, at(1, "09:30"));
  for (const board of boards) {
    book.write(board, at(1, "10:00"), { kind: "machined", ...panels.board, thickness_mm: 20 });
    board.wood.plane(2);
    if (plan.plated) book.inspect(board, at(1, "11:30"), "later", "sanding");
  }
  for (const board of boards) book.until(board, at(1, "14:00"));
  return boards;
}

/** Hairlines that sanding did not show open on the first warm night, in the cases of the paper. */
export function hairlineOnSoak({ crack, laid, wood }: BoardTruth, { paper }: CasePlan): boolean {
  if (!paper || crack || !laid) return false;
  const ratio = wood.strain / wood.nature.strength;
  return ratio > 0.985 * hairline && ratio <= hairline;
}
