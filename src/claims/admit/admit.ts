import { BadInput, quote } from "../../maths/badInput.ts";
import { gaugeStudy } from "../../measurement/index.ts";
import type { EvidenceBody } from "../evidence.ts";
import type { Shop } from "../shop.ts";
import { clockSlack_ms } from "../when.ts";
import { admitAccount, admitBill, admitFault, admitSafetyLimits, requireCurrency } from "./books.ts";
import { admitFinding, admitReading, admitRecording, admitValveReading, requireInstrument } from "./figure.ts";
import { admitLink, admitLog, admitLogEnd, admitSupplyLimits, admitSupplySet } from "./links.ts";
import { admitAnswer, admitClose, admitListenerNote, admitSeries } from "./listening.ts";
import { admitModel } from "./model.ts";
import { admitDelivery, admitPacked, admitPart, admitReturn } from "./orders.ts";
import { admitPerson, requireRight } from "./people.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";
import { admitBegun, admitEnded } from "./runs.ts";
import { admitTimber } from "./timber.ts";
import { admitOrder, admitRework, admitStep, admitUnit } from "./unit.ts";
import { admitConcession, admitRelease } from "./verdict.ts";
import { admitListening, admitVersion, requireFromVersion } from "./version.ts";

/** An entry handed in, after its shape was checked. */
export type Submitted = EvidenceBody & { readonly id?: string | undefined; readonly at: string; readonly by: string };

export interface Circumstances {
  /** The store's clock, ISO 8601. */
  readonly now: string;
  /** Newest hash of the chain, which a release must name. */
  readonly head?: string;
}

/**
 * Refuses an entry that does not fit what is on record.
 *
 * @param shop  all evidence before this entry, folded
 * @throws BadInput  naming the field within the entry, what was given, what is allowed and the mend
 */
export function admit(entry: Submitted, shop: Shop, circumstances: Circumstances): void {
  requireFreshId(entry, shop);
  requirePast(entry.at, circumstances.now);
  requireRight(entry, shop);
  if ("supersedes" in entry && entry.supersedes !== undefined) requireSuperseded(entry, entry.supersedes, shop);
  switch (entry.kind) {
    case "model":
      admitModel(entry);
      requireFromVersion(entry, shop);
      break;
    case "version":
      admitVersion(entry, shop);
      break;
    case "listening":
      admitListening(entry, shop);
      break;
    case "listening-series":
      admitSeries(entry, shop);
      break;
    case "listening-answer":
      admitAnswer(entry, shop);
      break;
    case "listening-close":
      admitClose(entry, shop);
      break;
    case "listener-note":
      admitListenerNote(entry, shop);
      break;
    case "begun":
      admitBegun(entry, shop);
      break;
    case "ended":
      admitEnded(entry, shop);
      break;
    case "order":
      admitOrder(entry, shop);
      break;
    case "unit":
      admitUnit(entry, shop);
      break;
    case "step":
      admitStep(entry, shop);
      break;
    case "rework":
      admitRework(entry, shop);
      break;
    case "batch":
      admitBatch(entry, shop);
      break;
    case "reading":
      admitReading(entry, shop);
      break;
    case "valve-reading":
      admitValveReading(entry, shop);
      break;
    case "reference-reading":
    case "recorder-calibration":
    case "trial":
      requireInstrument(entry.instrument, shop);
      break;
    case "recording":
      admitRecording(entry, shop);
      break;
    case "finding":
      admitFinding(entry, shop);
      break;
    case "concession":
      admitConcession(entry, shop);
      break;
    case "release":
      admitRelease(entry, shop, circumstances);
      break;
    case "promise":
      requireKnown("order", entry.order, shop.orders, "order");
      break;
    case "part":
      admitPart(entry, shop);
      break;
    case "arrival":
      requireKnown("part", entry.part, shop.parts, "part on order");
      break;
    case "delivery":
      admitDelivery(entry, shop);
      break;
    case "return":
      admitReturn(entry, shop);
      break;
    case "packed":
      admitPacked(entry, shop);
      break;
    case "shop":
      admitShop(entry);
      break;
    case "fault":
      admitFault(entry, shop);
      break;
    case "rates":
      requireCurrency(entry.currency, shop);
      break;
    case "bill":
      admitBill(entry, shop);
      break;
    case "account":
      admitAccount(entry, shop);
      break;
    case "safety-limits":
      admitSafetyLimits(entry, shop);
      break;
    case "gauge-study":
      requireInstrument(entry.instrument, shop);
      gaugeStudy(entry.readings);
      break;
    case "person":
      admitPerson(entry, shop);
      break;
    case "link":
      admitLink(entry, shop);
      break;
    case "supply-limits":
      admitSupplyLimits(entry, shop);
      break;
    case "supply-set":
      admitSupplySet(entry, shop);
      break;
    case "log":
      admitLog(entry, shop);
      break;
    case "log-end":
      admitLogEnd(entry, shop);
      break;
    case "instrument":
    case "valve-limits":
    case "headphone":
      break;
    default:
      admitTimber(entry, shop);
  }
}

function requireFreshId({ id }: Submitted, shop: Shop): void {
  if (id === undefined || !shop.ledger.get(id)) return;
  throw new BadInput("id", quote(id), "an id is given once", "choose another, or leave it out");
}

function requirePast(at: string, now: string): void {
  if (Date.parse(at) <= Date.parse(now) + clockSlack_ms) return;
  throw new BadInput("at", quote(at), `a moment not after now, ${now}`, "check the date and the offset, or the clock");
}

function requireSuperseded(entry: Submitted, supersedes: string, shop: Shop): void {
  const older = shop.ledger.get(supersedes);
  if (!older) throw new BadInput("supersedes", quote(supersedes), "the id of an entry on record", "check the id");
  if (older.body.kind !== entry.kind) {
    throw new BadInput("supersedes", quote(supersedes), `it is a ${older.body.kind}`, `name a ${entry.kind}`);
  }
  const newer = shop.ledger.supersederOf(supersedes);
  if (newer === undefined) return;
  throw new BadInput("supersedes", quote(supersedes), `it was superseded by ${newer} already`, `supersede ${newer}`);
}

function admitBatch(batch: Submitted & { kind: "batch" }, shop: Shop): void {
  requireDistinct("valves", batch.valves, "valve");
  requireDistinct("sections", batch.sections, "section");
  for (const [i, valve] of batch.valves.entries()) {
    const known = shop.valves.get(valve);
    if (!known) continue;
    throw new BadInput(`valves[${i}]`, quote(valve), `batch ${known.batch} has it`, "give each valve its own number");
  }
}

function admitShop(shop: Submitted & { kind: "shop" }): void {
  const zones = isTimeZone(shop.timeZone);
  if (!zones) throw new BadInput("timeZone", quote(shop.timeZone), "an IANA time zone", "write it like America/Regina");
  requireDistinct(
    "people",
    shop.people.map(({ id }) => id),
    "person",
  );
  requireDistinct(
    "places",
    shop.places.map(({ id }) => id),
    "place",
  );
  for (const [i, { calendar }] of shop.people.entries()) {
    requireKnown(`people[${i}].calendar`, calendar, Object.keys(shop.calendars), "calendar");
  }
}

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
