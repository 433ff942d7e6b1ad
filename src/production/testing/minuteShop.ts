import type { Order, PromiseInput, Spread, Step } from "../shop.ts";

/**
 * The same shop a second time, told differently: a clock in whole minutes that looks at everything at every tick, and
 * skips only minutes in which nothing can change. No intervals, no queues; local time comes from the platform's own
 * calendar, a minute at a time. Slow, and only for checking. Times in the input must be whole minutes.
 */
export interface MinuteResult {
  /** Minutes from now at which each order is done. */
  readonly done_min: ReadonlyMap<string, number>;
  /** For each order, what its longest wait was for; several where waits are equally long, none without a wait. */
  readonly heldBy: ReadonlyMap<string, ReadonlySet<string>>;
}

interface Piece {
  readonly order: Order;
  readonly route: readonly Step[];
  at: number;
  state: "away" | "waiting" | "worked" | "cooking" | "repairing" | "done";
  until: number;
  left: number;
  person: string | undefined;
  failed: boolean;
  failedOnce: Set<string>;
  missing?: string;
  /** Minutes waited at this step, by what was missing; `""` stands for the person still to be known. */
  waits: Map<string, number>;
}

/** @returns a function that lets the shop run once, given chance uniform in [0, 1); never asked where all is fixed */
export function minuteShop(input: PromiseInput, horizon_days: number): (chance: () => number) => MinuteResult {
  const clock = rotas(input, Date.parse(input.now), horizon_days);
  return (chance) => runOnce(input, clock, chance, horizon_days);
}

type Rotas = ReadonlyMap<string, Uint8Array>;

function runOnce(input: PromiseInput, clock: Rotas, chance: () => number, horizon_days: number): MinuteResult {
  const now = Date.parse(input.now);
  const minutes = (instant: string | undefined) => (instant === undefined ? 0 : (Date.parse(instant) - now) / 60_000);
  const draw = (spread: Spread, scale: number) => Math.round(triangle(spread, chance) * scale);
  const arrivals = (input.parts ?? []).map((part) => ({
    ...part,
    there: minutes(part.ordered) + draw(part.lead_days, 1440),
  }));

  const due = (order: Order) => (order.due === undefined ? Number.POSITIVE_INFINITY : minutes(order.due));
  const pieces: Piece[] = [...input.orders]
    .map((order, place) => ({ order, place }))
    .sort((a, b) =>
      due(a.order) !== due(b.order)
        ? due(a.order) - due(b.order)
        : minutes(a.order.released) - minutes(b.order.released) || a.place - b.place,
    )
    .flatMap(({ order }) =>
      Array.from({ length: order.units }, (_, unit) => ({
        order,
        route: input.routes[order.route?.[unit] ?? order.model]!,
        at: 0,
        state: "away" as const,
        until: Math.max(0, minutes(order.released)),
        left: 0,
        person: undefined,
        failed: false,
        failedOnce: new Set<string>(),
        waits: new Map<string, number>(),
      })),
    );
  const done_min = new Map<string, number>();
  const longest = new Map<string, number>();
  const heldBy = new Map<string, Set<string>>(input.orders.map(({ id }) => [id, new Set()]));
  const cooking = new Map<string, { until: number; pieces: Piece[] }>();
  // What stands in a place at the start: a slot each until it comes out, a batch until the last does.
  const standing = input.places.flatMap(({ id, kind, busy = [] }) => {
    const all = busy.map(({ slots, until }) => ({ place: id, slots, until: minutes(until) }));
    if (kind === "batch" && all.length > 0) {
      cooking.set(id, { until: Math.max(...all.map(({ until }) => until)), pieces: [] });
    }
    return kind === "batch" ? [] : all;
  });
  const placeOf = (step: Step) => input.places.find(({ id }) => id === step.place);

  const settleWaits = (piece: Piece) => {
    for (const [missing, length] of piece.waits) {
      const id = missing === "" ? piece.person! : missing;
      const best = longest.get(piece.order.id) ?? 0;
      if (length > best) heldBy.set(piece.order.id, new Set());
      if (length >= best) heldBy.get(piece.order.id)!.add(id);
      longest.set(piece.order.id, Math.max(best, length));
    }
    piece.waits.clear();
  };
  const advance = (piece: Piece, t: number, byClock: boolean) => {
    const step = piece.route[piece.at]!;
    piece.person = undefined;
    if (!piece.failed) piece.at++;
    else {
      const back = step.onFail?.back;
      if (back !== undefined) piece.at = piece.route.findIndex((other) => other.step === back);
      const repair = Math.round((step.onFail?.repair_h ?? 0) * 60);
      if (byClock && repair > 0) {
        piece.state = "repairing";
        piece.until = t + repair;
        return;
      }
    }
    piece.state = piece.at >= piece.route.length ? "done" : "waiting";
    if (piece.state === "done") done_min.set(piece.order.id, t);
  };
  const partMissing = (piece: Piece, t: number) =>
    arrivals
      .filter(
        ({ model, orders, step, there }) =>
          model === piece.order.model &&
          (orders?.includes(piece.order.id) ?? true) &&
          step === piece.route[piece.at]!.step &&
          there > t,
      )
      .sort((a, b) => b.there - a.there)[0]?.id;

  const endEverything = (t: number) => {
    for (const [place, batch] of cooking) {
      if (batch.until > t) continue;
      cooking.delete(place);
      for (const piece of batch.pieces) advance(piece, t, true);
    }
    for (const piece of pieces) {
      if (piece.state === "away" && piece.until <= t) {
        piece.state = piece.route.length === 0 ? "done" : "waiting";
        if (piece.state === "done") done_min.set(piece.order.id, t);
      }
      if (piece.state === "repairing" && piece.until <= t) piece.state = "waiting";
      if (piece.state === "worked" && piece.left === 0) {
        const step = piece.route[piece.at]!;
        advance(piece, t, step.unattended === true);
      }
    }
  };
  const cook = (place: { id: string; capacity?: number; cycle_h?: number }, t: number) => {
    const inside = pieces
      .filter((p) => p.state === "waiting" && p.route[p.at]!.place === place.id && partMissing(p, t) === undefined)
      .slice(0, place.capacity ?? 1);
    const lengths = inside.map((p) => draw(p.route[p.at]!.hours, 60));
    const length = place.cycle_h === undefined ? Math.max(...lengths) : Math.round(place.cycle_h * 60);
    for (const piece of inside) {
      settleWaits(piece);
      piece.state = "cooking";
      piece.failed = fails(piece, chance);
    }
    cooking.set(place.id, { until: t + length, pieces: inside });
  };
  const tryToBegin = (piece: Piece, t: number): string | undefined => {
    const step = piece.route[piece.at]!;
    const part = partMissing(piece, t);
    if (part !== undefined) return part;
    const place = placeOf(step);
    if (place?.kind === "batch") {
      if (cooking.has(place.id)) return place.id;
      cook(place, t);
      return undefined;
    }
    const inPlace = pieces.filter((p) => p.state === "worked" && p.route[p.at]!.place === place?.id).length;
    const inTheWay = standing.filter((one) => one.place === place?.id && one.until > t);
    if (place && inPlace + inTheWay.reduce((sum, { slots }) => sum + slots, 0) >= (place.capacity ?? 1))
      return place.id;
    if (step.skill !== undefined && step.unattended !== true) {
      const person = input.people.find(
        ({ id, skills }) =>
          skills.includes(step.skill!) && !pieces.some((p) => p.person === id) && clock.get(id)![t] === 1,
      );
      if (!person) return "";
      piece.person = person.id;
    }
    settleWaits(piece);
    piece.failed = fails(piece, chance);
    const repair = piece.failed && step.unattended !== true ? Math.round((step.onFail?.repair_h ?? 0) * 60) : 0;
    piece.left = draw(step.hours, 60) + repair;
    piece.state = "worked";
    return undefined;
  };

  const isAtWork = (piece: Piece, t: number) => {
    return piece.person === undefined || clock.get(piece.person)![t] === 1;
  };
  const quietMinutes = (t: number) => {
    const times = [
      ...pieces.map((p) =>
        p.state === "worked" ? p.left : p.state === "away" || p.state === "repairing" ? p.until - t : 0,
      ),
      ...arrivals.map((part) => part.there - t),
      ...[...cooking.values()].map((batch) => batch.until - t),
      ...standing.map(({ until }) => until - t),
    ].filter((length) => length > 0);
    let quiet = Math.min(...times, 1440);
    for (const rota of clock.values()) {
      for (let m = 1; m < quiet; m++) if (rota[t + m] !== rota[t]) quiet = m;
    }
    return quiet;
  };

  let t = 0;
  while (t < (horizon_days - 1) * 1440) {
    endEverything(t);
    for (const piece of pieces) if (piece.state === "waiting") tryToBegin(piece, t);
    // Asked again, because what a less urgent unit took meanwhile is missing from now on.
    for (const piece of pieces) if (piece.state === "waiting") piece.missing = tryToBegin(piece, t);
    if (pieces.every(({ state }) => state === "done")) return { done_min, heldBy };
    const quiet = quietMinutes(t);
    for (const piece of pieces) {
      if (piece.state === "waiting") piece.waits.set(piece.missing!, (piece.waits.get(piece.missing!) ?? 0) + quiet);
      if (piece.state === "worked" && isAtWork(piece, t)) piece.left -= quiet;
    }
    t += quiet;
  }
  throw new Error(`not done within ${horizon_days} days`);
}

function fails(piece: Piece, chance: () => number): boolean {
  const step = piece.route[piece.at]!;
  if (step.failsOnce !== true || piece.failedOnce.has(step.step)) return chanceOf(step.failOdds, chance);
  piece.failedOnce.add(step.step);
  return true;
}

function chanceOf(odds: number | undefined, chance: () => number): boolean {
  return odds !== undefined && odds > 0 && chance() < odds;
}

/** By rejection from a box: nothing here is shared with the inverse that the shop itself draws by. */
function triangle({ fast, usual, slow }: Spread, chance: () => number): number {
  if (fast === slow) return usual;
  for (;;) {
    const x = fast + (slow - fast) * chance();
    const height = x < usual ? (x - fast) / (usual - fast) : x > usual ? (slow - x) / (slow - usual) : 1;
    if (chance() < height) return x;
  }
}

/** For each person, whether they are at work in each minute from now on. */
function rotas(input: PromiseInput, now: number, horizon_days: number): Rotas {
  return new Map(
    input.people.map((person) => {
      const calendar = input.calendars[person.calendar]!;
      const zone = calendar.timeZone ?? input.timeZone ?? "UTC";
      return [person.id, rotaOf(person, calendar, zone, now, horizon_days * 1440)];
    }),
  );
}

/** Half an hour of universal time, on whose full halves clocks change, as a zone's clocks show it. */
interface Half {
  readonly date: string;
  readonly before: string;
  readonly ofDay: number;
}

const shown = new Map<string, { readonly format: Intl.DateTimeFormat; readonly halves: Map<number, Half> }>();

/** Asking the platform is slow, so each half hour of a zone is asked for once. */
function halfIn(zone: string, start: number): Half {
  const format = () =>
    new Intl.DateTimeFormat("en-GB", {
      timeZone: zone,
      hourCycle: "h23",
      year: "numeric",
      month: "2-digit",
      day: "2-digit",
      hour: "2-digit",
      minute: "2-digit",
    });
  const clock = shown.get(zone) ?? { format: format(), halves: new Map<number, Half>() };
  shown.set(zone, clock);
  const known = clock.halves.get(start);
  if (known) return known;
  const part = Object.fromEntries(clock.format.formatToParts(start).map(({ type, value }) => [type, value]));
  const date = `${part.year}-${part.month}-${part.day}`;
  const half = {
    date,
    before: new Date(Date.parse(`${date}T00:00:00Z`) - 86_400_000).toISOString().slice(0, 10),
    ofDay: Number(part.hour) * 60 + Number(part.minute),
  };
  clock.halves.set(start, half);
  return half;
}

function rotaOf(
  person: PromiseInput["people"][number],
  { week, closed = [] }: PromiseInput["calendars"][string],
  zone: string,
  now: number,
  total: number,
): Uint8Array {
  const minutes = (time: string) => {
    const [h, m] = time.split(":").map(Number);
    return h! * 60 + m!;
  };
  const names = ["sun", "mon", "tue", "wed", "thu", "fri", "sat"];
  const ofDate = new Map<string, readonly { readonly from: number; readonly to: number }[]>();
  const hours = (date: string) => {
    const known = ofDate.get(date) ?? hoursOn(date);
    ofDate.set(date, known);
    return known;
  };
  const hoursOn = (date: string) => {
    const isAway = person.away?.some(({ from, to }) => from <= date && date <= to);
    if (isAway || closed.includes(date)) return [];
    return (week[names[new Date(`${date}T00:00:00Z`).getUTCDay()]!] ?? []).map((text) => {
      const [from, to] = text.split("-").map(minutes);
      return { from: from!, to: to! };
    });
  };
  const rota = new Uint8Array(total);
  const half_ms = 1_800_000;
  for (let at = Math.floor(now / half_ms) * half_ms; at < now + total * 60_000; at += half_ms) {
    const { date, before, ofDay: first } = halfIn(zone, at);
    const start = Math.round((at - now) / 60_000);
    const [today, yesterday] = [hours(date), hours(before)];
    for (let m = 0; m < 30; m++) {
      const [t, ofDay] = [start + m, first + m];
      if (t < 0 || t >= total) continue;
      const isOn =
        today.some(({ from, to }) => ofDay >= from && (ofDay < to || to <= from)) ||
        yesterday.some(({ from, to }) => to < from && ofDay < to);
      if (isOn) rota[t] = 1;
    }
  }
  return rota;
}
