import type { Shop } from "../../claims/index.ts";
import type { PieceState } from "../../claims/timber/yard.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import type { Calculate } from "../calculate.ts";
import type { Shelf } from "../keptAnswers.ts";
import { boundShop } from "./boundShop.ts";
import { caseView, judgedPanels } from "./caseView.ts";
import { Courses, courseAt } from "./courses.ts";
import { crackLookBack } from "./crackLookBack.ts";
import { crackRecord } from "./crackRecord.ts";
import { cutPlan } from "./cutPlan.ts";
import { type Band, bandOf, boundFor } from "./destination.ts";
import { earlyWeighing } from "./earlyWeighing.ts";
import { handsThere } from "./handsThere.ts";
import type { Known } from "./known.ts";
import { lifeOf } from "./life.ts";
import { type PastPiece, pastPieces } from "./pastPieces.ts";
import { cardOf } from "./pieceCard.ts";
import { pieceView } from "./pieceView.ts";
import { rankWords } from "./rankWords.ts";
import { runsPlan } from "./runsPlan.ts";
import { shelfView } from "./shelfView.ts";
import type {
  CaseView,
  CrackLookBackView,
  CutPlanView,
  EarlyWeighingView,
  PanelYearView,
  PieceCardView,
  PieceView,
  RunsView,
  TimberShelfView,
} from "./views.ts";

export interface ShelfOptions {
  /** Leaves no piece to be computed later. */
  readonly wait?: boolean;
  /** How long whoever asks may be kept waiting for pieces not yet computed. */
  readonly patience_ms?: number;
  /** What waits for all of them, and is told how far they are. */
  readonly waiting?: LongAnswer;
}

/** Answers over many pieces, which take seconds when nothing of them is known yet. */
export type LongAnswer = "cuts" | "runs" | "past";

/** How many of the pieces that an answer waits for are worked out. */
export interface Progress {
  readonly done: number;
  readonly of: number;
}

const usualPatience_ms = 500;

/** A piece that is being worked out, or is. */
interface Begun {
  readonly done: Promise<void>;
  peek(): Known & { readonly pending: boolean };
}

/** The timber desk of a workshop: the shelf, single pieces, and the cases of units. Kept while the workshop is open. */
export class TimberDesk {
  private readonly courses: Courses;
  private readonly bands = new Map<string, Promise<Band>>();
  private readonly begun = new Map<LongAnswer, Progress>();

  constructor(
    private readonly shopNow: () => Shop,
    private readonly now: () => string,
    private readonly calculate: Calculate,
    /** Where what is worked out of a piece or a case is kept for as long as nothing it was drawn from grows. */
    private readonly facts: Shelf = { keep: (_question, answer) => answer() },
  ) {
    this.courses = new Courses(calculate);
  }

  /** Every piece that stands in the shop; those still being computed say so, unless all are waited for. */
  async shelf({ wait = false, patience_ms = usualPatience_ms, waiting }: ShelfOptions = {}): Promise<TimberShelfView> {
    const { timber } = this.shopNow();
    const states = timber.standing.map((piece) => timber.state(piece)!);
    const begun = states.map((state) => this.begin(state));
    const all = this.counted(
      begun.map(({ done }) => done),
      waiting,
    );
    all.catch(() => undefined);
    await (wait ? all : Promise.race([all, pause(patience_ms)]));
    const cards = begun.map(({ peek }) => this.card(peek()));
    const cracks = this.facts.keep("crack record", () => crackRecord(this.shopNow().timber));
    return shelfView(this.shopNow(), cards, this.now(), this.calculate, cracks);
  }

  /** What is in the warm places, what goes in next, and what to weigh. */
  async runs(): Promise<RunsView> {
    const { pieces } = await this.shelf({ wait: true, waiting: "runs" });
    return runsPlan(this.shopNow(), pieces, this.now(), this.calculate);
  }

  /** Which piece of which board becomes which panel, over all cases not made yet. */
  async cuts(): Promise<CutPlanView> {
    const { pieces } = await this.shelf({ wait: true, waiting: "cuts" });
    return cutPlan(this.shopNow(), pieces, (wood, climate) => this.band(wood, climate), this.calculate);
  }

  /** @param past  the shop's pieces of before, where they are worked out */
  async piece(name: string, past?: readonly PastPiece[]): Promise<PieceView> {
    const known = await this.know(this.named(name));
    const view = await pieceView(this.shopNow(), known, this.card(known), this.now(), this.calculate);
    if (!known.life || !known.course) return view;
    if (!past) return { ...view, rank: { words: "", pending: true } };
    const alike = past.filter(({ piece, species }) => species === known.state.species && piece !== name);
    const words = await rankWords(known.life, alike, this.calculate);
    return { ...view, rank: { words, pending: false } };
  }

  /** The case of a unit, judged from its panels by the air that it goes to. */
  caseOf(unit: string, now = this.now()): Promise<CaseView> {
    return caseView({
      shop: this.shopNow(),
      now,
      unit,
      calculate: this.calculate,
      moistureAt: (piece, at) => this.moistureAt(piece, at),
      panelsOf: (name) => this.panelsOf(name),
    });
  }

  /** The panels of a unit's case, judged by the air that it goes to. */
  panelsOf(unit: string): Promise<readonly PanelYearView[]> {
    return this.facts.keep(`panels ${unit}`, () =>
      judgedPanels({
        shop: this.shopNow(),
        unit,
        calculate: this.calculate,
        moistureAt: (piece, at) => this.moistureAt(piece, at),
      }),
    );
  }

  /** Moisture of a piece when its panel was joined, say, with its 95 % half-width. */
  async moistureAt(
    piece: string,
    at: string,
  ): Promise<{ readonly mean_pct: number; readonly doubt_pct: number } | { readonly wanting: string }> {
    const known = await this.know(this.named(piece));
    if (!known.life || !known.course) {
      return { wanting: known.fault ?? (known.told.ok ? "It can't be computed." : known.told.wanting) };
    }
    const { mean_pct, low_pct, high_pct } = courseAt(known.course, known.life, Date.parse(at));
    return { mean_pct, doubt_pct: (high_pct - low_pct) / 2 };
  }

  /** Every piece that went over the plate, by its own course; takes long the first time. */
  past(): Promise<readonly PastPiece[]> {
    const { timber } = this.shopNow();
    return pastPieces(timber, (piece) => this.know(timber.state(piece)!));
  }

  /** What a weighing before the plate would have told, and whether the check index did. */
  async early(past: readonly PastPiece[]): Promise<EarlyWeighingView> {
    const indexes = new Map(past.map(({ piece, checkIndex }) => [piece, checkIndex]));
    const { index } = await crackLookBack(this.shopNow().timber, this.calculate, indexes);
    return { ...earlyWeighing(past), ...(index && { indexWords: index.words }) };
  }

  /** In which stage pieces cracked, and by which hour on the plate. */
  cracks(): Promise<CrackLookBackView> {
    return crackLookBack(this.shopNow().timber, this.calculate);
  }

  /** How far a long answer is that is being waited for. */
  progress(answer: LongAnswer): Progress | undefined {
    return this.begun.get(answer);
  }

  private counted<T>(promises: readonly Promise<T>[], waiting?: LongAnswer): Promise<readonly T[]> {
    let done = 0;
    const tell = () => waiting && this.begun.set(waiting, { done, of: promises.length });
    tell();
    return Promise.all(
      promises.map(async (one) => {
        const answer = await one;
        done += 1;
        tell();
        return answer;
      }),
    );
  }

  private card(known: Known & { readonly pending?: boolean }): PieceCardView {
    return cardOf(this.shopNow(), known, this.now());
  }

  private async know(state: PieceState): Promise<Known> {
    const { done, peek } = this.begin(state);
    await done;
    return peek();
  }

  /** Begins to compute a piece, where nothing is kept of it; `peek` tells what is known so far. */
  private begin({ piece }: PieceState): Begun {
    return this.facts.keep(`piece ${piece}`, () => this.beginAnew(this.shopNow().timber.state(piece)!));
  }

  private beginAnew(state: PieceState): Begun {
    const shop = this.shopNow();
    const climate = boundFor(boundShop(shop), state)?.climate;
    let known: Known = { state, told: { ok: false, wanting: "" } };
    let pending = true;
    const done = (async () => {
      const band = climate && (await this.band(state, climate));
      const target_pct = band && Number(((band.driest_pct + band.wettest_pct) / 2).toFixed(1));
      const told = lifeOf(shop.timber, state.piece, target_pct, { hands: (from_ms) => handsThere(shop, from_ms) });
      known = {
        state,
        told,
        ...(told.ok && { life: told.life }),
        ...(band && { band }),
        ...(target_pct !== undefined && { target_pct }),
      };
      if (told.ok) {
        const asked = this.courses.ask(told.life);
        await asked.promise;
        const { course, fault } = asked;
        known = { ...known, ...(course && { course }), ...(fault !== undefined && { fault }) };
      }
      pending = false;
    })();
    return { done, peek: (): Known & { readonly pending: boolean } => ({ ...known, pending }) };
  }

  private band(state: Parameters<typeof bandOf>[0], climate: Parameters<typeof bandOf>[1]): Promise<Band> {
    const { timber } = this.shopNow();
    const own = timber.woodOf(state.species)?.id ?? "";
    const key = `${climate.id} ${state.species} ${state.thickness_mm} ${state.density_kg_m3 ?? ""} ${own}`;
    const known = this.bands.get(key) ?? bandOf(state, climate, timber, this.calculate);
    this.bands.set(key, known);
    return known;
  }

  private named(piece: string): PieceState {
    const { timber } = this.shopNow();
    const state = timber.state(piece);
    if (state) return state;
    const some = timber.pieces;
    throw new BadInput(
      "piece",
      quote(piece),
      some.length === 0 ? "no timber has come in yet" : "no piece of that number is on record",
      some.length === 0 ? "receive it first" : `check the number, such as ${some.slice(-4).join(", ")}`,
    );
  }
}

function pause(time_ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, time_ms).unref?.());
}
