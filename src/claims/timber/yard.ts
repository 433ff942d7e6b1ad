import { plainName } from "../../timber/species.ts";
import type { BodyOf, Evidence } from "../evidence.ts";
import type { Ledger } from "../ledger.ts";
import { byTaking } from "../when.ts";

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

/** The shop's timber: every piece, place and case, sorted as it is written down. */
export class Yard {
  private readonly byPiece = new Map<string, PieceEntry[]>();
  private readonly parents = new Map<string, string>();
  private readonly placeEntries = new Map<string, Evidence<"timber-place">[]>();
  private readonly airEntries = new Map<string, Evidence<"air">[]>();
  private readonly caseEntries = new Map<string, Evidence<"case">[]>();
  private readonly givenEntries = new Map<string, Evidence<"case-given">[]>();
  private readonly wantedEntries = new Map<string, Evidence<"case-panels">[]>();
  private readonly climateEntries = new Map<string, Evidence<"climate">[]>();
  private readonly woodEntries = new Map<string, Evidence<"wood">[]>();
  private readonly finishPlans = new Map<string, Evidence<"finish-plan">[]>();
  private readonly soakPlans = new Map<string, Evidence<"planned-stages">[]>();
  private readonly states = new Map<string, PieceState>();

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
        for (const { piece } of body.into) this.parents.set(piece, body.piece);
        break;
      case "case":
        keep(this.caseEntries, body.case, entry as Evidence<"case">);
        break;
      default:
        break;
    }
    // What was put right may have said of which wood the pieces are that were sawn from it.
    if ("supersedes" in body && body.supersedes !== undefined) this.states.clear();
    for (const piece of piecesOf(entry)) {
      keep(this.byPiece, piece, entry as PieceEntry);
      this.states.delete(piece);
    }
  }

  has(piece: string): boolean {
    return this.state(piece) !== undefined;
  }

  /** Every piece on record, in the order they came in. */
  get pieces(): readonly string[] {
    return [...this.byPiece.keys()].filter((piece) => this.has(piece));
  }

  /** Entries about a piece that count, in the order things were done. */
  entriesOf(piece: string): readonly PieceEntry[] {
    return this.live(this.byPiece.get(piece));
  }

  /** Nothing for a piece whose coming-in was never written down, or was put right by another. */
  state(piece: string): PieceState | undefined {
    const known = this.states.get(piece);
    if (known) return known;
    const entries = this.entriesOf(piece);
    const state = entries.reduce<PieceState | undefined>(
      (now, entry) => next(now, entry, piece, (parent) => this.state(parent)),
      undefined,
    );
    if (state) this.states.set(piece, state);
    return state;
  }

  get places(): ReadonlyMap<string, BodyOf<"timber-place">> {
    return new Map(
      [...this.placeEntries].flatMap(([place, entries]) => {
        const last = this.live(entries).at(-1);
        return last ? [[place, last.body] as const] : [];
      }),
    );
  }

  /** What was logged of a place's air. */
  airOf(place: string): readonly Evidence<"air">[] {
    return this.live(this.airEntries.get(place));
  }

  get cases(): readonly string[] {
    return [...this.caseEntries.keys()].filter((one) => this.caseOf(one));
  }

  caseOf(name: string): Evidence<"case"> | undefined {
    return this.live(this.caseEntries.get(name)).at(-1);
  }

  givenOf(name: string): Evidence<"case-given"> | undefined {
    return this.live(this.givenEntries.get(name)).at(-1);
  }

  /** The case that a unit has now. */
  caseOfUnit(unit: string): { readonly given: Evidence<"case-given">; readonly joined: Evidence<"case"> } | undefined {
    const given = [...this.givenEntries.keys()]
      .flatMap((name) => this.givenOf(name) ?? [])
      .filter(({ body }) => body.unit === unit)
      .toSorted(byTaking)
      .at(-1);
    const joined = given && this.caseOf(given.body.case);
    return joined && { given, joined };
  }

  /** What each unit's case is to be made of, the last list of each. */
  get wanted(): readonly Evidence<"case-panels">[] {
    return [...this.wantedEntries.values()].flatMap((entries) => this.live(entries).at(-1) ?? []);
  }

  /** How a unit's case is to be finished; nothing where its last plan was emptied. */
  finishPlanOf(unit: string): Evidence<"finish-plan"> | undefined {
    const last = this.live(this.finishPlans.get(unit)).at(-1);
    return last && last.body.coats.length > 0 ? last : undefined;
  }

  /** Units whose case is to be finished by a plan. */
  get unitsToFinish(): readonly string[] {
    return [...this.finishPlans.keys()].filter((unit) => this.finishPlanOf(unit));
  }

  /** The soak that is planned for a unit's case. */
  soakPlanOf(unit: string): Evidence<"planned-stages"> | undefined {
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
    return new Map(
      [...this.climateEntries].flatMap(([place, entries]) => {
        const last = this.live(entries).at(-1);
        return last ? [[place, last] as const] : [];
      }),
    );
  }

  /** A wood as the shop measured it, letter case and hyphens of its name aside. */
  woodOf(species: string): Evidence<"wood"> | undefined {
    return this.live(this.woodEntries.get(plainName(species))).at(-1);
  }

  /** Names of the woods that the shop measured itself. */
  get ownWoods(): readonly string[] {
    return [...this.woodEntries.keys()].flatMap((name) => this.woodOf(name)?.body.species ?? []);
  }

  private live<T extends Evidence>(entries: readonly T[] = []): readonly T[] {
    return entries.filter(({ id }) => this.ledger.supersederOf(id) === undefined);
  }
}

/** Pieces that an entry says something of. */
function piecesOf({ body }: Evidence): readonly string[] {
  switch (body.kind) {
    case "blank":
    case "board-marks":
    case "weighing":
    case "offcut":
    case "machined":
    case "flaw":
      return [body.piece];
    case "stood":
    case "coat":
    case "meant":
    case "planned-stages":
      return body.pieces;
    case "sawn":
      return [body.piece, ...body.into.map(({ piece }) => piece)];
    case "case":
      return body.panels.map(({ piece }) => piece);
    default:
      return [];
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
