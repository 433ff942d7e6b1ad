import { BadInput, quote } from "../../maths/badInput.ts";
import { factorInto } from "../../measurement/inUnit.ts";
import type { BodyOf } from "../evidence.ts";
import type { LinkDescription } from "../links/description.ts";
import { mostSteps } from "../links/evidence.ts";
import { isByOwner } from "../people/rights.ts";
import type { Shop } from "../shop.ts";
import { requireInstrument, requireSubject } from "./figure.ts";
import { requireKnown } from "./refuse.ts";
import { requireUnit } from "./unit.ts";

type By = { readonly by: string };

/** Which ports and addresses are opened is the owner's word, as what a supply may be set to. */
function requireOwner({ by }: By, what: string, shop: Shop): void {
  if (isByOwner({ by }, shop.ledger)) return;
  throw new BadInput("by", quote(by), `only the owner ${what}`, "ask the owner to enter it");
}

export function admitLink(link: BodyOf<"link"> & By, shop: Shop): void {
  requireInstrument(link.instrument, shop);
  requireOwner(link, "says how an instrument is spoken to", shop);
}

function requireLinked(instrument: string, shop: Shop): LinkDescription {
  requireInstrument(instrument, shop);
  const description = shop.links.get(instrument)?.body.description;
  if (description) return description;
  throw new BadInput("instrument", quote(instrument), "an instrument that is linked", "enter its description first");
}

export function admitSupplyLimits(entry: BodyOf<"supply-limits"> & By, shop: Shop): void {
  const { settings } = requireLinked(entry.instrument, shop);
  requireOwner(entry, "says what a supply may be set to", shop);
  for (const [setting, limit] of Object.entries(entry.limits)) {
    const known = settings.map((one) => one.setting);
    requireKnown(`limits.${setting}`, setting, known, `setting of ${entry.instrument}`);
    if (limit.low <= limit.high) continue;
    throw new BadInput(
      `limits.${setting}.low`,
      quote(limit.low),
      `at or below high, ${limit.high}`,
      "exchange the two",
    );
  }
}

export function admitSupplySet(entry: BodyOf<"supply-set">, shop: Shop): void {
  requireLinked(entry.instrument, shop);
  if (entry.unit !== undefined) requireUnit(entry.unit, shop);
}

export function admitLog(log: BodyOf<"log">, shop: Shop): void {
  const { quantities } = requireLinked(log.instrument, shop);
  requireKnown(
    "quantity",
    log.quantity,
    quantities.map(({ quantity }) => quantity),
    `quantity of ${log.instrument}`,
  );
  if (log.as !== undefined && factorInto(log.quantity, log.as) === undefined) {
    throw new BadInput(
      "as",
      quote(log.as),
      `a quantity of the unit of ${log.quantity}`,
      "leave it out, or name such a one",
    );
  }
  const { piece, ...subject } = log.about;
  if (piece === undefined) requireSubject(subject, shop, "about");
  else requireWeighable(log, piece, shop);
  const steps = Math.ceil(log.for_s / log.every_s);
  if (steps <= mostSteps) return;
  throw new BadInput(
    "every_s",
    quote(log.every_s),
    `at most ${mostSteps} readings in one log, and this makes ${steps}`,
    "read less often, or for a shorter time",
  );
}

function requireWeighable({ quantity, about }: BodyOf<"log">, piece: string, shop: Shop): void {
  requireKnown("about.piece", piece, shop.timber.pieces, "piece of timber");
  if (Object.values(about).filter((part) => part !== undefined).length > 1) {
    throw new BadInput("about", quote(about), "a piece of timber or a unit, not both", "leave the other out");
  }
  if (quantity === "mass_g") return;
  throw new BadInput("quantity", quote(quantity), "of a piece of timber, mass_g alone is logged", "log its mass");
}

export function admitLogEnd({ log }: BodyOf<"log-end">, shop: Shop): void {
  if (!shop.logs.has(log)) throw new BadInput("log", quote(log), "the id of a log on record", "check the id");
  if (!shop.logEnds.has(log)) return;
  throw new BadInput("log", quote(log), "a log that is still running", "it has ended already");
}
