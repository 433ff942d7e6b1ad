import { plainName } from "../../timber/species.ts";
import type { BodyOf, Evidence, EvidenceKind } from "../evidence.ts";
import { key, type Ledger } from "../ledger.ts";
import { byTaking } from "../when.ts";
import { piecesOf } from "./pieces.ts";

/** Entries that say something of single pieces. */
export type PieceEntry = Evidence<
  | "blank"
  | "board-marks"
  | "weighing"
  | "offcut"
  | "stood"
  | "machined"
  | "coat"
  | "flaw"
  | "sawn"
  | "meant"
  | "case"
  | "planned-stages"
>;

interface PieceSize {
  readonly length_mm: number;
  readonly width_mm: number;
  readonly thickness_mm: number;
  readonly ringAngle_deg: number;
}

/** A piece as all that was written of it leaves it. */
export interface PieceState extends PieceSize {
  readonly piece: string;
  readonly species: string;
  readonly density_kg_m3?: number;
  readonly pith_mm?: number;
  readonly rough: boolean;
  /** The board it was sawn from. */
  readonly from?: string;
  readonly begun: string;
  readonly place: string;
  readonly since: string;
  readonly faces?: "both" | "one";
  /** What it was sawn into; such a piece is no more. */
  readonly into?: readonly string[];
  /** The case it is a panel of. */
  readonly inCase?: { readonly case: string; readonly panel: string };
  readonly meantFor?: string;
  /** Where it is not clear, as last looked over. */
  readonly defects?: BodyOf<"board-marks">["defects"];
  /** 0 plain to 3 the finest. */
  readonly figure?: number;
}

/** Kinds of entries that say something of pieces. */
const ofPieces = [
  ...(["blank", "board-marks", "weighing", "offcut", "machined", "flaw"] as const),
  ...(["stood", "coat", "meant", "planned-stages", "sawn", "case"] as const),
];

/** The shop's timber: every piece, place and case, sorted as it is written down. */
export class Yard {
  private readonly byPiece = new Map<string, PieceEntry[]>();
  /** What was ever sawn from a piece, and what a piece was sawn from. */
  private readonly offspring = new Map<string, Set<string>>();
  private readonly origins = new Map<string, Set<string>>();
  private readonly placeEntries = new Map<string, Evidence<"timber-place">[]>();
  private readonly airEntries = new Map<string, Evidence<"air">[]>();
  private readonly caseEntries = new Map<string, Evidence<"case">[]>();
  private readonly givenEntries = new Map<string, Evidence<"case-given">[]>();
  private readonly wantedEntries = new Map<string, Evidence<"case-panels">[]>();
  private readonly climateEntries = new Map<string, Evidence<"climate">[]>();
  private readonly woodEntries = new Map<string, Evidence<"wood">[]>();
  private readonly finishPlans = new Map<string, Evidence<"finish-plan">[]>();
  private readonly soakPlans = new Map<string, Evidence<"planned-stages">[]>();
  private readonly givenTo = new Map<string, Evidence<"case-given">[]>();
  private readonly states = new Map<string, PieceState>();
  /** Being worked out: a board that is said to come out of its own part is not asked again. */
  private readonly underWay = new Set<string>();
  /** Pieces by the order they came in; those that stand in the shop; those to be looked at again. */
  private readonly cameAs = new Map<string, number>();
  private readonly there = new Set<string>();
  private readonly unsettled = new Set<string>();
  /** On the cabinet's count: when something was last written that bears on a piece. */
  private readonly writtenAt = new Map<string, number>();
  private readonly toldOf = new Map<unknown, Map<string, { readonly at: number; readonly told: unknown }>>();
  private readonly folded = new Map<string, { readonly at: number; readonly value: unknown }>();

  constructor(private readonly ledger: Ledger) {}

  add(entry: Evidence): void {
    const { body } = entry;
    switch (body.kind) {
      case "timber-place":
        keep(this.placeEntries, body.place, entry as Evidence<"timber-place">);
        break;
      case "air":
        keep(this.airEntries, body.place, entry as Evidence<"air">);
        break;
      case "case-given":
        keep(this.givenEntries, body.case, entry as Evidence<"case-given">);
        keep(this.givenTo, body.unit, entry as Evidence<"case-given">);
        break;
      case "case-panels":
        keep(this.wantedEntries, body.unit, entry as Evidence<"case-panels">);
        break;
      case "climate":
        keep(this.climateEntries, body.place, entry as Evidence<"climate">);
        break;
      case "wood":
        keep(this.woodEntries, plainName(body.species), entry as Evidence<"wood">);
        break;
      case "finish-plan":
        keep(this.finishPlans, body.unit, entry as Evidence<"finish-plan">);
        break;
      case "planned-stages":
        if (body.unit !== undefined) keep(this.soakPlans, body.unit, entry as Evidence<"planned-stages">);
        break;
      case "sawn":
        for (const { piece } of body.into) {
          this.offspring.set(body.piece, (this.offspring.get(body.piece) ?? new Set()).add(piece));
          this.origins.set(piece, (this.origins.get(piece) ?? new Set()).add(body.piece));
        }
        break;
      case "case":
        keep(this.caseEntries, body.case, entry as Evidence<"case">);
        break;
      default:
        break;
    }
    const older = "supersedes" in body && body.supersedes !== undefined && this.ledger.get(body.supersedes);
    if (older) for (const piece of piecesOf(older)) this.writeOf(piece);
    for (const piece of piecesOf(entry)) {
      keep(this.byPiece, piece, entry as PieceEntry);
      if (!this.cameAs.has(piece)) this.cameAs.set(piece, this.cameAs.size);
      this.writeOf(piece);
    }
  }

  /** Something was written of a piece, which tells of what it was sawn from too. */
  private writeOf(piece: string): void {
    this.forget(piece);
    const above = new Set([piece]);
    for (const one of above) {
      this.writtenAt.set(one, this.ledger.cabinet.grown);
      for (const origin of this.origins.get(one) ?? []) above.add(origin);
    }
  }

  /** A piece is worked out again, and so is what was sawn from it, which is of its wood. */
  private forget(piece: string, above: ReadonlySet<string> = new Set()): void {
    if (above.has(piece)) return;
    this.states.delete(piece);
    this.unsettled.add(piece);
    this.writtenAt.set(piece, this.ledger.cabinet.grown);
    this.ledger.cabinet.touch(key("piece", piece));
    for (const part of this.offspring.get(piece) ?? []) this.forget(part, new Set([...above, piece]));
  }

  /** Every piece on record, in the order they came in. */
  get pieces(): readonly string[] {
    return this.kept("pieces", ["blank", "sawn"], () =>
      [...this.byPiece.keys()].filter((piece) => this.stateOf(piece) !== undefined),
    );
  }

  /**
   * What is told of each piece on record by its own entries, those of what it was sawn from and into, and the places it
   * stood in; worked out again for those alone that something was written of since.
   */
  each<T>(tell: (yard: Yard, piece: string) => T): readonly T[] {
    const places = this.grown("timber-place");
    const told = (this.toldOf.get(tell) ?? new Map()) as Map<string, { readonly at: number; readonly told: T }>;
    this.toldOf.set(tell, told);
    for (const kind of ofPieces) this.look(kind);
    return this.pieces.map((piece) => {
      const known = told.get(piece);
      const since = Math.max(places, this.writtenAt.get(piece) ?? 0);
      if (known && known.at >= since) return known.told;
      const fresh = { at: this.ledger.cabinet.grown, told: this.ledger.cabinet.unwatched(() => tell(this, piece)) };
      told.set(piece, fresh);
      return fresh.told;
    });
  }

  /** Pieces that stand in the shop: neither sawn into others nor in a case, in the order they came in. */
  get standing(): readonly string[] {
    this.look("blank", "sawn", "case");
    for (const piece of this.unsettled) {
      const state = this.stateOf(piece);
      if (state && state.into === undefined && state.inCase === undefined) this.there.add(piece);
      else this.there.delete(piece);
    }
    this.unsettled.clear();
    return [...this.there].sort((a, b) => this.cameAs.get(a)! - this.cameAs.get(b)!);
  }

  /** Entries about a piece that count, in the order things were done. */
  entriesOf(piece: string): readonly PieceEntry[] {
    this.ledger.cabinet.open(key("piece", piece));
    return this.live(this.byPiece.get(piece));
  }

  /** Nothing for a piece whose coming-in was never written down, or was put right by another. */
  state(piece: string): PieceState | undefined {
    // What it was sawn from tells it too when that changes.
    this.ledger.cabinet.open(key("piece", piece));
    return this.stateOf(piece);
  }

  private stateOf(piece: string): PieceState | undefined {
    const known = this.states.get(piece);
    if (known || this.underWay.has(piece)) return known;
    this.underWay.add(piece);
    const state = this.live(this.byPiece.get(piece)).reduce<PieceState | undefined>(
      (now, entry) => next(now, entry, piece, (parent) => this.stateOf(parent)),
      undefined,
    );
    this.underWay.delete(piece);
    if (state) this.states.set(piece, state);
    return state;
  }

  get places(): ReadonlyMap<string, BodyOf<"timber-place">> {
    return this.kept("places", ["timber-place"], () => {
      const last = [...this.placeEntries].map(([place, entries]) => [place, this.live(entries).at(-1)?.body] as const);
      return new Map(last.flatMap(([place, body]) => (body ? [[place, body] as const] : [])));
    });
  }

  /** What was logged of a place's air. */
  airOf(place: string): readonly Evidence<"air">[] {
    return this.kept(`air ${place}`, ["air"], () => this.live(this.airEntries.get(place)));
  }

  get cases(): readonly string[] {
    return this.kept("cases", ["case"], () => [...this.caseEntries.keys()].filter((one) => this.caseOf(one)));
  }

  /** Cases that no unit has. */
  get casesFree(): readonly string[] {
    return this.kept("free cases", ["case", "case-given"], () =>
      this.cases.filter((name) => this.givenOf(name) === undefined),
    );
  }

  caseOf(name: string): Evidence<"case"> | undefined {
    this.look("case");
    return this.live(this.caseEntries.get(name)).at(-1);
  }

  givenOf(name: string): Evidence<"case-given"> | undefined {
    this.look("case-given");
    return this.live(this.givenEntries.get(name)).at(-1);
  }

  /** The case that a unit has now. */
  caseOfUnit(unit: string): { readonly given: Evidence<"case-given">; readonly joined: Evidence<"case"> } | undefined {
    this.look("case-given");
    // A case that was given on to another since is no longer this one's.
    const given = [...new Set((this.givenTo.get(unit) ?? []).map(({ body }) => body.case))]
      .flatMap((name) => this.givenOf(name) ?? [])
      .filter(({ body }) => body.unit === unit)
      .toSorted(byTaking)
      .at(-1);
    const joined = given && this.caseOf(given.body.case);
    return joined && { given, joined };
  }

  /** What each unit's case is to be made of, the last list of each. */
  get wanted(): readonly Evidence<"case-panels">[] {
    this.look("case-panels");
    return [...this.wantedEntries.values()].flatMap((entries) => this.live(entries).at(-1) ?? []);
  }

  /** How a unit's case is to be finished; nothing where its last plan was emptied. */
  finishPlanOf(unit: string): Evidence<"finish-plan"> | undefined {
    this.look("finish-plan");
    const last = this.live(this.finishPlans.get(unit)).at(-1);
    return last && last.body.coats.length > 0 ? last : undefined;
  }

  /** Units whose case is to be finished by a plan. */
  get unitsToFinish(): readonly string[] {
    this.look("finish-plan");
    return [...this.finishPlans.keys()].filter((unit) => this.finishPlanOf(unit));
  }

  /** The soak that is planned for a unit's case. */
  soakPlanOf(unit: string): Evidence<"planned-stages"> | undefined {
    this.look("planned-stages");
    const last = this.live(this.soakPlans.get(unit)).at(-1);
    return last && last.body.stages.length > 0 ? last : undefined;
  }

  /** Stages that a piece is to go through, as last planned. */
  plannedOf(piece: string): Evidence<"planned-stages"> | undefined {
    const last = this.entriesOf(piece).findLast((entry) => entry.body.kind === "planned-stages");
    return last?.body.kind === "planned-stages" && last.body.stages.length > 0
      ? (last as Evidence<"planned-stages">)
      : undefined;
  }

  get climates(): ReadonlyMap<string, Evidence<"climate">> {
    return this.kept("climates", ["climate"], () => {
      const last = [...this.climateEntries].map(([place, entries]) => [place, this.live(entries).at(-1)] as const);
      return new Map(last.flatMap(([place, entry]) => (entry ? [[place, entry] as const] : [])));
    });
  }

  /** A wood as the shop measured it, letter case and hyphens of its name aside. */
  woodOf(species: string): Evidence<"wood"> | undefined {
    this.look("wood");
    return this.live(this.woodEntries.get(plainName(species))).at(-1);
  }

  /** Names of the woods that the shop measured itself. */
  get ownWoods(): readonly string[] {
    this.look("wood");
    return [...this.woodEntries.keys()].flatMap((name) => this.woodOf(name)?.body.species ?? []);
  }

  private look(...kinds: readonly EvidenceKind[]): void {
    for (const kind of kinds) this.grown(kind);
  }

  private grown(kind: EvidenceKind): number {
    return this.ledger.cabinet.open(key("kind", kind)).grownAt;
  }

  /** What is folded from entries of some kinds, for as long as none of them comes in or is put right. */
  private kept<T>(what: string, kinds: readonly EvidenceKind[], fold: () => T): T {
    const at = Math.max(...kinds.map((kind) => this.grown(kind)));
    const known = this.folded.get(what);
    if (known?.at === at) return known.value as T;
    const value = fold();
    this.folded.set(what, { at, value });
    return value;
  }

  private live<T extends Evidence>(entries: readonly T[] = []): readonly T[] {
    return entries.filter(({ id }) => this.ledger.supersederOf(id) === undefined);
  }
}

function next(
  now: PieceState | undefined,
  { at, body }: PieceEntry,
  piece: string,
  parentOf: (piece: string) => PieceState | undefined,
): PieceState | undefined {
  if (body.kind === "blank") {
    const { species, density_kg_m3, length_mm, width_mm, thickness_mm, ringAngle_deg, pith_mm, rough, place } = body;
    return {
      ...{ piece, species, length_mm, width_mm, thickness_mm, ringAngle_deg, rough, place },
      ...(density_kg_m3 !== undefined && { density_kg_m3 }),
      ...(pith_mm !== undefined && { pith_mm }),
      begun: at,
      since: at,
    };
  }
  if (body.kind === "sawn" && body.piece !== piece) {
    const parent = parentOf(body.piece);
    const cut = body.into.find((one) => one.piece === piece);
    if (!parent || !cut) return now;
    const { species, density_kg_m3, place, meantFor } = parent;
    return {
      ...{ species, place, ...cut },
      ...(density_kg_m3 !== undefined && { density_kg_m3 }),
      ...(meantFor !== undefined && { meantFor }),
      rough: false,
      from: body.piece,
      begun: at,
      since: at,
    };
  }
  if (!now) return undefined;
  switch (body.kind) {
    case "stood": {
      const { faces: _, ...rest } = now;
      return { ...rest, place: body.place, since: at, ...(body.faces !== undefined && { faces: body.faces }) };
    }
    case "machined": {
      const { length_mm, width_mm, thickness_mm, ringAngle_deg = now.ringAngle_deg } = body;
      return { ...now, length_mm, width_mm, thickness_mm, ringAngle_deg, rough: false };
    }
    case "sawn":
      return { ...now, into: body.into.map((one) => one.piece) };
    case "meant":
      return { ...now, meantFor: body.unit };
    case "board-marks": {
      const { figure: _, ...rest } = now;
      return { ...rest, defects: body.defects, ...(body.figure !== undefined && { figure: body.figure }) };
    }
    case "case":
      return {
        ...now,
        inCase: { case: body.case, panel: body.panels.find((panel) => panel.piece === piece)!.panel },
      };
    default:
      return now;
  }
}

function keep<T extends Evidence>(lists: Map<string, T[]>, key: string, entry: T): void {
  const list = lists.get(key) ?? [];
  lists.set(key, list);
  let place = list.length;
  while (place > 0 && byTaking(list[place - 1]!, entry) > 0) place -= 1;
  list.splice(place, 0, entry);
}
