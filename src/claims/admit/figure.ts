import { BadInput, quote } from "../../maths/badInput.ts";
import type { BodyOf, Subject } from "../evidence.ts";
import type { Shop } from "../shop.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";
import { requireUnit } from "./unit.ts";

export function admitReading({ subject, instrument }: BodyOf<"reading">, shop: Shop): void {
  requireSubject(subject, shop);
  requireInstrument(instrument, shop);
}

/** @param reading  of a valve on the tester */
export function admitValveReading(reading: BodyOf<"valve-reading">, shop: Shop): void {
  requireSubject({ valve: reading.valve, section: reading.section }, shop, "");
  requireInstrument(reading.instrument, shop);
}

export function admitRecording(recording: BodyOf<"recording">, shop: Shop): void {
  const model = requireUnit(recording.unit, shop);
  requireInstrument(recording.instrument, shop);
  if (recording.supply.instrument !== undefined)
    requireKnown("supply.instrument", recording.supply.instrument, shop.instruments, "instrument");
  requireDistinct("channels", recording.channels, "channel");
  for (const [i, channel] of recording.channels.entries()) {
    if (channel === "supply" || /^[0-9]+$/.test(channel)) continue;
    requireKnown(`channels[${i}]`, channel, [...model.channels, "mains"], "channel");
  }
  for (const [position, valve] of Object.entries(recording.valves)) {
    const positions = model.positions.map((p) => p.position);
    requireKnown(`valves.${position}`, position, positions, "position");
    if (shop.valves.has(valve)) continue;
    throw new BadInput(
      `valves.${position}`,
      quote(valve),
      "no valve of that name is on record",
      "enter its batch first",
    );
  }
  const namesake = shop.ledger
    .about("recording", recording.unit)
    .find(
      ({ id, body }) =>
        body.recording === recording.recording &&
        id !== recording.supersedes &&
        shop.ledger.supersederOf(id) === undefined,
    );
  if (!namesake) return;
  throw new BadInput(
    "recording",
    quote(recording.recording),
    "the unit has a recording of that name",
    "give it another",
  );
}

/** A figure drawn for one unit from what was read of another would prove the wrong amplifier. */
export function admitFinding(finding: BodyOf<"finding">, shop: Shop): void {
  requireSubject(finding.subject, shop);
  for (const [i, id] of finding.from.entries()) {
    const source = shop.ledger.get(id);
    if (!source) {
      throw new BadInput(`from[${i}]`, quote(id), "the id of an entry on record", "enter what it is drawn from first");
    }
    const superseder = shop.ledger.supersederOf(id);
    if (superseder !== undefined) {
      throw new BadInput(
        `from[${i}]`,
        quote(id),
        `it was superseded by ${superseder}`,
        "draw the figure from that one",
      );
    }
    const { body } = source;
    const unit =
      body.kind === "reading" || body.kind === "finding" ? body.subject.unit : "unit" in body ? body.unit : undefined;
    if (unit === undefined || finding.subject.unit === undefined || unit === finding.subject.unit) continue;
    throw new BadInput(`from[${i}]`, quote(id), `it is about unit ${unit}`, `name evidence of ${finding.subject.unit}`);
  }
}

export function requireInstrument(instrument: string, shop: Shop): void {
  requireKnown("instrument", instrument, shop.instruments, "instrument");
}

export function requireSubject(subject: Subject, shop: Shop, path = "subject"): void {
  const { unit, valve, section, channel, position } = subject;
  const at = (field: string) => (path === "" ? field : `${path}.${field}`);
  if (unit === undefined && valve === undefined) {
    throw new BadInput(at("unit"), "neither unit nor valve", "what the figure is about", "name the unit or the valve");
  }
  const model = unit === undefined ? undefined : requireUnit(unit, shop, at("unit"));
  const known = valve === undefined ? undefined : shop.valves.get(valve);
  if (valve !== undefined && !known) {
    throw new BadInput(at("valve"), quote(valve), "no valve of that name is on record", "enter its batch first");
  }
  if (channel !== undefined && model) requireKnown(at("channel"), channel, model.channels, "channel");
  const place = model?.positions.find((p) => p.position === position);
  if (position !== undefined && model) {
    requireKnown(
      at("position"),
      position,
      model.positions.map((p) => p.position),
      "position",
    );
  }
  if (section === undefined) return;
  const sections = known?.sections ?? (place ? Object.keys(place.sections) : undefined);
  if (sections) requireKnown(at("section"), section, sections, "section");
}
