import type { Evidence, Model } from "../claims/evidence.ts";
import { instrumentTrust, netlistParts, reached, type Shop, type UnitState } from "../claims/index.ts";
import { groundOf, nodesOf, placedPoints, testPointsOf } from "./probePlaces.ts";
import type { ProbeCardView, ProbeKind, ProbePointView, ProbeReadingView } from "./views.ts";

type Reading = Evidence<"reading">;

/** An ordinary hand-held meter, where no reading says otherwise. */
const usualMeter_Mohm = 10;

export const quantityOf: Readonly<Record<ProbeKind, string>> = {
  resistance: "resistance_ohm",
  dc: "level_V",
  gain: "gain_dB",
};
const kinds = Object.keys(quantityOf) as readonly ProbeKind[];

/** The probe card of a unit: every test point in its place, with what was read there. Nothing is computed for it. */
export function probeCard(shop: Shop, model: Model, unit: UnitState, now: string): ProbeCardView {
  const { isModels, points } = placedPoints(testPointsOf(model.netlist));
  const readings = probeReadings(shop, model, unit.unit);
  const dc = readings.filter(({ body }) => body.quantity === quantityOf.dc);
  const meter = dc.at(-1)?.body.conditions.meter_Mohm;
  return {
    unit: unit.unit,
    model: unit.model,
    revision: unit.revision,
    now,
    ground: groundOf(model),
    placed: isModels ? "by the model" : "by stage",
    points: points.map((point): ProbePointView => {
      const input = model.input[channelOf(point.channel, model)];
      return {
        ...point,
        ...(input !== undefined && { input }),
        valves: positionsAt(point.node, model),
        isOutput: Object.values(model.output).includes(point.node),
        readings: newestFirst(readings, point.point).map((reading) => readingView(reading, shop, model, unit.unit)),
      };
    }),
    valves: model.positions.map(({ position, type }) => ({
      position,
      type,
      ...(unit.fitted[position] !== undefined && { valve: unit.fitted[position] }),
    })),
    instruments: [...shop.instruments.keys()],
    meter_Mohm: typeof meter === "number" ? meter : usualMeter_Mohm,
    released: shop.isReleased(unit.unit),
  };
}

/** Readings of a unit taken at its test points, those put right by a newer entry left out, in the order taken. */
function probeReadings(shop: Shop, model: Model, unit: string): readonly Reading[] {
  const points = new Set(testPointsOf(model.netlist).map(({ point }) => point));
  return kinds.flatMap((kind) =>
    shop.ledger
      .figures("unit", unit, quantityOf[kind])
      .filter(
        (figure): figure is Reading =>
          figure.body.kind === "reading" &&
          figure.body.subject.point !== undefined &&
          points.has(figure.body.subject.point) &&
          shop.ledger.supersederOf(figure.id) === undefined,
      ),
  );
}

/** What counts now: of each kind at each point, and each other end or input, the newest, unless it has fallen. */
export function standingReadings(shop: Shop, model: Model, unit: string): readonly Reading[] {
  const newest = new Map<string, Reading>();
  for (const reading of probeReadings(shop, model, unit)) newest.set(placeOf(reading), reading);
  return [...newest.values()].filter((reading) => fallenOf(reading, shop, model, unit) === undefined);
}

/** The newest of each place first, then what came before and has fallen. */
function newestFirst(readings: readonly Reading[], point: string): readonly Reading[] {
  const here = readings.filter(({ body }) => body.subject.point === point);
  const newest = new Map(here.map((reading) => [placeOf(reading), reading]));
  return [...newest.values()];
}

function placeOf({ body: { subject, quantity, conditions } }: Reading): string {
  const { to, input, frequency_Hz } = conditions;
  return [quantity, subject.point, to, input, frequency_Hz].join("\u0000");
}

function readingView(reading: Reading, shop: Shop, model: Model, unit: string): ProbeReadingView {
  const { id, at, by, body } = reading;
  const { to, input, frequency_Hz } = body.conditions;
  const fallen = fallenOf(reading, shop, model, unit);
  return {
    evidence: id,
    kind: kinds.find((kind) => quantityOf[kind] === body.quantity)!,
    value: body.value,
    doubt: body.doubt,
    instrument: body.instrument,
    at,
    by,
    ...(typeof to === "string" && { to }),
    ...(typeof input === "string" && { input }),
    ...(typeof frequency_Hz === "number" && { frequency_Hz }),
    ...(fallen !== undefined && { fallen }),
  };
}

/**
 * Why a reading counts no longer: its instrument failed, or hands have since touched a part of the same channel.
 *
 * A valve exchanged leaves what was read of the dead circuit standing: cold valves conduct nothing.
 */
function fallenOf(reading: Reading, shop: Shop, model: Model, unit: string): string | undefined {
  const trust = instrumentTrust(shop.ledger, reading.body.instrument, reading);
  if (trust.state === "failed") return trust.why;
  const channel = channelAt(reading.body.subject.point!, model);
  const isDead = reading.body.quantity === quantityOf.resistance;
  const since = shop.ledger
    .about("rework", unit)
    .filter(({ at, seq }) => Date.parse(at) > Date.parse(reading.at) || (at === reading.at && seq > reading.seq));
  const touching = since.find(({ body }) => {
    const isOnlyValves = body.touched.every((thing) => Object.keys(thing).join() === "position");
    if (isDead && isOnlyValves) return false;
    return reached(model, body).some(
      (thing) =>
        thing.supply !== undefined ||
        // Every part of the net list stands in a channel; what was touched itself may name none.
        (thing.part !== undefined &&
          thing.channel !== undefined &&
          (channel === undefined || thing.channel === channel)),
    );
  });
  return touching && `the unit was worked on since: ${touching.body.why}`;
}

function channelAt(point: string, model: Model): string | undefined {
  const named = testPointsOf(model.netlist).find((known) => known.point === point)?.channel;
  return named !== undefined && model.channels.includes(named) ? named : undefined;
}

/** The positions whose valve has an electrode on a node. */
function positionsAt(node: string, model: Model): readonly string[] {
  const known = positionsOf.get(model) ?? new Map<string, readonly string[]>();
  positionsOf.set(model, known);
  const kept = known.get(node);
  if (kept) return kept;
  const parts = netlistParts(model).filter((part) => nodesOf(part).includes(node));
  const positions = model.positions
    .filter(({ sections }) => parts.some(({ id }) => Object.values(sections).includes(id)))
    .map(({ position }) => position);
  known.set(node, positions);
  return positions;
}

/** A model never changes; its cards are asked for all day. */
const positionsOf = new WeakMap<Model, Map<string, readonly string[]>>();

/** A point of both channels is driven through the first. */
function channelOf(channel: string | undefined, model: Model): string {
  return channel !== undefined && model.channels.includes(channel) ? channel : (model.channels[0] ?? "");
}
