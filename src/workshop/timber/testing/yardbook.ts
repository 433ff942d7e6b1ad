import { answer } from "../../../calculations/answer.ts";
import { type Evidence, type Submission, submission } from "../../../claims/evidence.ts";
import { admit, Shop } from "../../../claims/index.ts";
import type { Calculate } from "../../calculate.ts";
import { opening } from "../../testing/ownShop.ts";
import { TimberDesk } from "../desk.ts";

export type Body = Submission extends infer S ? (S extends Submission ? Omit<S, "id" | "at" | "by"> : never) : never;

export const start_ms = Date.parse("2026-03-02T09:30:00Z");
export const hours = (count: number) => new Date(start_ms + count * 3_600_000).toISOString();
export const now = hours(2000);

/** The calculations themselves, for a shop without recordings. */
export const calculate: Calculate = async <T>(name: string, input: unknown) => {
  const recording = () => {
    throw new Error("no recording is asked for");
  };
  const given = await answer(name, input, { recording });
  if (!given.ok) throw new Error(`${name}: ${given.error.path}: ${given.error.message}`);
  return given.output as T;
};

/** A shop of timber, each entry admitted as the store would. */
export class Yardbook {
  readonly shop = new Shop();
  private seq = 0;

  constructor() {
    for (const entry of opening) this.add(entry);
    this.write(0, { kind: "instrument", instrument: "balance", title: "balance", trial });
    this.write(0, { kind: "trial", instrument: "balance", value: 500, doubt: 0.1 });
    this.write(0, { kind: "timber-place", place: "shed", what: "room" });
    this.write(0, { kind: "timber-place", place: "warm box", what: "chamber", set_C: 45 });
    this.write(0, { kind: "timber-place", place: "plate", what: "plate", faces: "one", set_C: 90 });
    this.air("shed", 0, 18, 65);
    this.air("warm box", 0, 45, 28);
  }

  add(entry: Submission): string {
    const parsed = submission.parse(entry);
    admit(parsed, this.shop, { now: hours(5000) });
    this.seq += 1;
    const { id = `e${this.seq}`, at, by, ...body } = parsed;
    this.shop.add({ id, seq: this.seq, at, by, recordedAt: at, body } as Evidence);
    return id;
  }
  write(hour: number, body: Body, id?: string): string {
    return this.add({ at: hours(hour), by: "woodworker", ...(id && { id }), ...body } as Submission);
  }
  air(place: string, hour: number, temperature_C: number, humidity_pct: number): void {
    const readings = [{ at: hours(hour), temperature_C, humidity_pct }];
    this.write(hour, { kind: "air", place, readings, instrument: "balance" });
  }
  blank(piece: string, more: object = {}): void {
    this.write(1, { ...board, kind: "blank", piece, ...more } as Body);
  }
  weigh(piece: string, hour: number, mass_g: number): string {
    return this.write(hour, { kind: "weighing", piece, mass_g, instrument: "balance" });
  }
  /** An offcut of 12 % when the piece weighed 1120 g, so that 1000 g of it are wood. */
  offcut(piece: string): void {
    this.weigh(piece, 2, 1120);
    this.write(40, { kind: "offcut", piece, cut: hours(2), wet_g: 112, ovenDry_g: 100, instrument: "balance" });
  }
  desk(): TimberDesk {
    return new TimberDesk(
      () => this.shop,
      () => now,
      calculate,
    );
  }
}

const trial = { reference: "check weight", quantity: "mass_g", true: 500, limit: 0.5 };
export const board = {
  species: "white ash",
  length_mm: 700,
  width_mm: 300,
  thickness_mm: 20,
  ringAngle_deg: 5,
  seller: "sawmill",
  place: "shed",
};
export const prairie: Body = {
  kind: "climate",
  place: "next town",
  basis: "assumed for the test",
  months: Array.from({ length: 12 }, (_, i) => ({
    month: i + 1,
    temperature_C: 21,
    humidity_pct: Math.round(30 - 14 * Math.cos((2 * Math.PI * i) / 12)),
  })),
};
