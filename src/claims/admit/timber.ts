import { BadInput, quote } from "../../maths/badInput.ts";
import { requireOwn, tellsMovement } from "../../timber/ownWood.ts";
import { isListed, plainName, speciesNamed } from "../../timber/species.ts";
import type { BodyOf, EvidenceKind } from "../evidence.ts";
import type { Shop } from "../shop.ts";
import type { PieceEntry } from "../timber/yard.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";

type TimberKind = Extract<
  EvidenceKind,
  | "blank"
  | "board-marks"
  | "weighing"
  | "offcut"
  | "timber-place"
  | "air"
  | "stood"
  | "machined"
  | "coat"
  | "flaw"
  | "sawn"
  | "meant"
  | "case-panels"
  | "case"
  | "case-given"
  | "climate"
  | "wood"
  | "planned-stages"
  | "finish-plan"
>;
type Timber = { readonly at: string } & BodyOf<TimberKind>;
type As<K extends TimberKind> = { readonly at: string } & BodyOf<K>;

/** Refuses an entry about timber that does not fit what is on record. */
export function admitTimber(entry: Timber, shop: Shop): void {
  switch (entry.kind) {
    case "blank":
      admitBlank(entry, shop);
      break;
    case "weighing":
      requireInstrumentOf(entry, shop);
      requireStanding("piece", entry.piece, entry.at, shop);
      requireLikeWood(entry, shop);
      requireAboveDry(entry, shop);
      break;
    case "offcut":
      admitOffcut(entry, shop);
      break;
    case "air":
      requireInstrumentOf(entry, shop);
      requireKnown("place", entry.place, shop.timber.places.keys(), "place for timber");
      requireReadBefore(entry);
      break;
    case "stood":
      requireKnown("place", entry.place, shop.timber.places.keys(), "place for timber");
      requireAll("pieces", entry.pieces, entry.at, shop);
      break;
    case "machined":
      requireStanding("piece", entry.piece, entry.at, shop);
      requireUnitNamed([entry.piece], entry.unit, shop);
      break;
    case "coat":
      requireAll("pieces", entry.pieces, entry.at, shop);
      if (entry.unit !== undefined) requireKnown("unit", entry.unit, shop.units, "unit");
      if (entry.pieces.length === 0 && entry.unit === undefined)
        throw new BadInput("pieces", "none", "pieces, or the unit whose case it is", "say what the coat is on");
      requireUnitNamed(entry.pieces, entry.unit, shop);
      break;
    case "flaw":
      requireStanding("piece", entry.piece, entry.at, shop);
      break;
    case "sawn":
      admitSawn(entry, shop);
      break;
    case "meant":
      requireAll("pieces", entry.pieces, entry.at, shop);
      requireOrdered(entry.unit, shop);
      break;
    case "case-panels":
      requireOrdered(entry.unit, shop);
      requireDistinct(
        "panels",
        entry.panels.map(({ panel }) => panel),
        "panel",
      );
      for (const [i, { species }] of entry.panels.entries()) requireMovement(species, `panels[${i}].species`, shop);
      break;
    case "case":
      admitCase(entry, shop);
      break;
    case "board-marks":
      admitMarks(entry, shop);
      break;
    case "wood":
      requireOwn(entry.species, entry);
      requireNotRenamed(entry, shop);
      break;
    case "planned-stages":
      admitPlannedStages(entry, shop);
      break;
    case "finish-plan":
      requireOrdered(entry.unit, shop);
      requirePerson(entry.who, shop);
      break;
    case "case-given":
      if (!shop.timber.caseOf(entry.case)) requireKnown("case", entry.case, shop.timber.cases, "case");
      requireOrdered(entry.unit, shop);
      break;
    case "climate":
      requireDistinct(
        "months",
        entry.months.map(({ month }) => String(month)),
        "month",
      );
      break;
    default:
      break;
  }
}

function admitBlank({ piece, species, density_kg_m3, place, supersedes }: As<"blank">, shop: Shop): void {
  if (isTaken(piece, supersedes, shop))
    throw new BadInput("piece", quote(piece), "a piece comes in once", "give it another number");
  requireKnown("place", place, shop.timber.places.keys(), "place for timber");
  if (density_kg_m3 !== undefined || isListed(species) || shop.timber.woodOf(species)) return;
  throw new BadInput(
    "species",
    quote(species),
    "a species of the catalogue, one that the shop measured, or any with its density",
    "check the name, give density_kg_m3 of the piece at hand, or write the wood down first",
  );
}

/** Whether a piece came in by that number, or was sawn as it, other than by the entry that is now put right. */
function isTaken(piece: string, putsRight: string | undefined, shop: Shop): boolean {
  return shop.timber
    .entriesOf(piece)
    .some(
      ({ id, body }) => id !== putsRight && (body.kind === "blank" || (body.kind === "sawn" && body.piece !== piece)),
    );
}

/** A panel is planned of a wood of which somebody knows how far it moves. */
function requireMovement(species: string, path: string, shop: Shop): void {
  const own = shop.timber.woodOf(species);
  if (!own) {
    speciesNamed(species, path);
    return;
  }
  if (tellsMovement(own.body)) return;
  throw new BadInput(
    path,
    quote(species),
    "a wood whose movement is known",
    "measure a piece of it at two moistures and write it down with the wood",
  );
}

/** A correction keeps its wood's name: pieces go by it. */
function requireNotRenamed({ species, supersedes }: As<"wood">, shop: Shop): void {
  const before = shop.timber.ownWoods.find((name) => shop.timber.woodOf(name)!.id === supersedes);
  if (before === undefined || plainName(before) === plainName(species)) return;
  throw new BadInput(
    "species",
    quote(species),
    `it puts right ${before}`,
    "keep its name; write another wood by itself",
  );
}

/**
 * Between the lightest of dry woods with room to spare, and the substance that cells are made of, which nothing soaked
 * goes beyond (1500 kg/m³, Wood Handbook, from memory).
 */
const likeWood_kg_m3 = { least: 40, most: 1600 } as const;

/** A slip of a place, or kilograms for grams, by the sizes that the piece has had. */
function requireLikeWood({ piece, mass_g }: As<"weighing">, shop: Shop): void {
  const volumes_dm3 = shop.timber
    .entriesOf(piece)
    .flatMap((entry) => sizeFrom(entry, piece) ?? [])
    .map(({ length_mm, width_mm, thickness_mm }) => (length_mm * width_mm * thickness_mm) / 1e6);
  const [least_g, most_g] = [
    Math.min(...volumes_dm3) * likeWood_kg_m3.least,
    Math.max(...volumes_dm3) * likeWood_kg_m3.most,
  ];
  if (mass_g >= least_g && mass_g <= most_g) return;
  throw new BadInput(
    "mass_g",
    `${mass_g} g`,
    `for wood of its size ${least_g.toFixed(0)} to ${most_g.toFixed(0)} g`,
    "look at the decimal point; if it was cut since, write its new size down first",
  );
}

function sizeFrom({ body }: PieceEntry, piece: string) {
  if (body.kind === "blank" || body.kind === "machined") return body;
  return body.kind === "sawn" ? body.into.find((one) => one.piece === piece) : undefined;
}

/** A piece lighter than its own dry wood was misread, or its offcut was. */
function requireAboveDry({ piece, mass_g, at, supersedes }: As<"weighing">, shop: Shop): void {
  const entries = shop.timber
    .entriesOf(piece)
    .filter((entry) => entry.id !== supersedes && Date.parse(entry.at) <= Date.parse(at));
  const dry_g = ovenDryOf(entries);
  if (dry_g === undefined || mass_g >= 0.995 * dry_g) return;
  throw new BadInput(
    "mass_g",
    `${mass_g} g`,
    `the piece's own oven-dry mass, about ${dry_g.toFixed(1)} g, or more`,
    "weigh it again; if it was cut smaller since, write that down first",
  );
}

/** Dry mass of the piece as it has been since it was last cut, by its offcut and the weighing nearest to it. */
function ovenDryOf(entries: readonly PieceEntry[]): number | undefined {
  const cut = entries.findLast(({ body }) => body.kind === "machined");
  const offcut = entries.findLast(({ body }) => body.kind === "offcut");
  if (offcut?.body.kind !== "offcut") return undefined;
  const { body } = offcut;
  const cut_ms = Date.parse(body.cut);
  if (cut && Date.parse(cut.at) > cut_ms) return undefined;
  const near = entries
    .flatMap((entry) => (entry.body.kind === "weighing" ? [{ at: entry.at, mass_g: entry.body.mass_g }] : []))
    .toSorted((a, b) => Math.abs(Date.parse(a.at) - cut_ms) - Math.abs(Date.parse(b.at) - cut_ms))[0];
  if (!near || Math.abs(Date.parse(near.at) - cut_ms) > day_ms) return undefined;
  return (near.mass_g * body.ovenDry_g) / body.wet_g;
}

const day_ms = 86_400_000;

function admitOffcut(entry: As<"offcut">, shop: Shop): void {
  requireInstrumentOf(entry, shop);
  requireStanding("piece", entry.piece, entry.cut, shop, { momentPath: "cut" });
  if (Date.parse(entry.cut) >= Date.parse(entry.at))
    throw new BadInput("cut", quote(entry.cut), `a moment before ${entry.at}, when it was dry`, "check both moments");
  if (entry.ovenDry_g > entry.wet_g)
    throw new BadInput(
      "ovenDry_g",
      `${entry.ovenDry_g} g`,
      `its wet mass, ${entry.wet_g} g, or less`,
      "check which mass is which",
    );
}

/** A mark lies on the board: knots beyond its end are misread. */
function admitMarks({ piece, defects, at }: As<"board-marks">, shop: Shop): void {
  requireStanding("piece", piece, at, shop);
  const { length_mm, width_mm } = shop.timber.state(piece)!;
  for (const [i, { what, along, across }] of defects.entries()) {
    const beyond =
      along.to_mm > length_mm + 0.5
        ? { way: "along", to_mm: along.to_mm, most_mm: length_mm }
        : across && across.to_mm > width_mm + 0.5
          ? { way: "across", to_mm: across.to_mm, most_mm: width_mm }
          : undefined;
    if (beyond)
      throw new BadInput(
        `defects[${i}].${beyond.way}.to_mm`,
        `${beyond.to_mm} mm`,
        `at most ${beyond.most_mm} mm, the board's own`,
        `measure the ${what} again from the same ${beyond.way === "along" ? "end" : "edge"}`,
      );
  }
}

function admitPlannedStages({ pieces, unit, stages, at }: As<"planned-stages">, shop: Shop): void {
  requireAll("pieces", pieces, at, shop);
  if (unit !== undefined) requireOrdered(unit, shop);
  if (pieces.length === 0 && unit === undefined)
    throw new BadInput("pieces", "none", "pieces, or the unit whose case it is", "say what the plan is for");
  for (const [i, { place }] of stages.entries())
    requireKnown(`stages[${i}].place`, place, shop.timber.places.keys(), "place for timber");
}

/** Someone of the shop, where its people are written down. */
function requirePerson(who: string, shop: Shop): void {
  const people = shop.shop?.people ?? [];
  if (people.length > 0)
    requireKnown(
      "who",
      who,
      people.map(({ id }) => id),
      "person of the shop",
    );
}

function requireReadBefore({ readings, at }: As<"air">): void {
  for (const [i, reading] of readings.entries()) {
    if (Date.parse(reading.at) <= Date.parse(at)) continue;
    throw new BadInput(
      `readings[${i}].at`,
      quote(reading.at),
      `a moment not after ${at}, when the log was written down`,
      "check the logger's clock",
    );
  }
}

function admitSawn(entry: As<"sawn">, shop: Shop): void {
  requireStanding("piece", entry.piece, entry.at, shop, { putsRight: entry.supersedes });
  const other = sawingOf(entry.piece, shop);
  // Told as of before it, the other would have sawn a board that was no more.
  if (other !== undefined && other.id !== entry.supersedes) refuseSawn("piece", entry.piece, shop);
  const names = entry.into.map(({ piece }) => piece);
  requireDistinct("into", names, "piece");
  for (const [i, piece] of names.entries()) {
    if (!isTaken(piece, entry.supersedes, shop)) continue;
    throw new BadInput(`into[${i}].piece`, quote(piece), "a number no other piece has", "give it another");
  }
}

function admitCase(entry: As<"case">, shop: Shop): void {
  const { panels } = entry;
  requireDistinct(
    "panels",
    panels.map(({ panel }) => panel),
    "panel",
  );
  requireDistinct(
    "panels",
    panels.map(({ piece }) => piece),
    "piece",
  );
  for (const [i, { piece, moisture_pct, doubt_pct }] of panels.entries()) {
    const path = `panels[${i}].piece`;
    requireStanding(path, piece, entry.at, shop);
    const { inCase } = shop.timber.state(piece)!;
    if (inCase && inCase.case !== entry.case)
      throw new BadInput(path, quote(piece), `it is a panel of case ${inCase.case}`, "name another piece");
    if ((moisture_pct === undefined) !== (doubt_pct === undefined))
      throw new BadInput(
        `panels[${i}].doubt_pct`,
        quote(doubt_pct),
        "a moisture with its doubt, or neither",
        "say how far the meter may be out",
      );
  }
}

/** A unit on record, or one that an order names and that is not opened yet. */
function requireOrdered(unit: string, shop: Shop): void {
  if (shop.units.has(unit) || shop.orderNaming(unit) !== undefined) return;
  requireKnown("unit", unit, shop.units, "unit");
}

/** Work on a panel of a unit's case names that unit, for it voids proofs there. */
function requireUnitNamed(pieces: readonly string[], unit: string | undefined, shop: Shop): void {
  for (const piece of pieces) {
    const inCase = shop.timber.state(piece)?.inCase;
    const owner = inCase && shop.timber.givenOf(inCase.case)?.body.unit;
    if (owner === undefined || owner === unit || !shop.units.has(owner)) continue;
    throw new BadInput(
      "unit",
      quote(unit),
      `${piece} is in the case of unit ${owner}`,
      `name unit ${owner}: this voids proofs of its case`,
    );
  }
}

function requireAll(path: string, pieces: readonly string[], at: string, shop: Shop): void {
  requireDistinct(path, pieces, "piece");
  for (const [i, piece] of pieces.entries()) requireStanding(`${path}[${i}]`, piece, at, shop);
}

/** A piece that had come in by then, and was not sawn up, unless by a sawing that is now put right. */
function requireStanding(
  path: string,
  piece: string,
  at: string,
  shop: Shop,
  { momentPath = "at", putsRight }: { momentPath?: string; putsRight?: string | undefined } = {},
): void {
  const state = shop.timber.state(piece);
  if (!state) {
    const some = shop.timber.pieces;
    throw new BadInput(
      path,
      quote(piece),
      "no piece of timber of that number is on record",
      some.length === 0
        ? "receive it first"
        : `check the number, such as ${some.slice(0, 4).join(", ")}, or receive it`,
    );
  }
  if (Date.parse(at) < Date.parse(state.begun))
    throw new BadInput(momentPath, quote(at), `${piece} came in at ${state.begun}`, "check the date");
  if (state.into === undefined) return;
  const sawn = sawingOf(piece, shop)!;
  if (sawn.id === putsRight || Date.parse(at) <= Date.parse(sawn.at)) return;
  refuseSawn(path, piece, shop);
}

/** What a piece was sawn up by. */
function sawingOf(piece: string, shop: Shop) {
  return shop.timber.entriesOf(piece).find(({ body }) => body.kind === "sawn" && body.piece === piece);
}

function refuseSawn(path: string, piece: string, shop: Shop): never {
  const into = shop.timber.state(piece)!.into!;
  throw new BadInput(path, quote(piece), `it was sawn into ${into.slice(0, 6).join(", ")}`, "name one of those pieces");
}

function requireInstrumentOf({ instrument }: { readonly instrument: string }, shop: Shop): void {
  requireKnown("instrument", instrument, shop.instruments, "instrument");
}
