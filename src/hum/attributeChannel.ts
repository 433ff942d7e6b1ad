import { weightA } from "../bench/weighting.ts";
import type { Random } from "../maths/random.ts";
import type { Cause, CauseShare, Setting } from "./cause.ts";
import { type Design, designOf, type Sight } from "./design.ts";
import { costWhenTied, type LineDraws, linePrior, type Scatter, type Seen, sampleLine } from "./linePosterior.ts";
import type { LineReading } from "./lineReading.ts";
import { poolOrders } from "./poolOrders.ts";
import { type Repeats, repeatsIn, scatterFrom } from "./reseating.ts";
import { sharesIn, type Verdict, verdictOf } from "./verdict.ts";

export interface ChannelEvidence {
  /** One a recording; those marked as not comparable bring lines but no contrast. */
  readonly settings: readonly Setting[];
  readonly comparable: readonly boolean[];
  readonly reference: number;
  readonly reaches: (position: string) => boolean;
  readonly readings: readonly LineReading[];
  /** Seconds of computing that the weighing may take on an ordinary machine. */
  readonly budget_s: number;
  readonly random: Random;
  /** What repeats show in every channel of the unit, this one included; its own alone where left out. */
  readonly repeats?: readonly Repeats[];
}

export interface ChannelAnswer {
  readonly design: Design;
  readonly verdict: Verdict;
  readonly causes: ReadonlyMap<LineReading, readonly CauseShare[]>;
  /** What the recordings leave open of the lines that settle the verdict, for choosing the next one. */
  readonly open: readonly OpenLine[];
  readonly scatter: Scatter;
  /** Lines too faint to be weighed in the time there was. */
  readonly unweighed: number;
}

/** One line that bears on the verdict: what its sources may be, explanation by explanation. */
export interface OpenLine {
  readonly order: number;
  /** A-weighting of power times the square of the level the phasors are relative to. */
  readonly weight: number;
  /** [explanation][2·source], the same explanations in every line. */
  readonly phasors: readonly Float64Array[];
}

const samples = { verdict: 900, line: 200 } as const;
/** With fewer, bounds and odds are too coarse to be told. */
const leastSamples = { verdict: 200, line: 60 } as const;
/** Of one sample for each of its moves and readings, measured. */
const cost_s = 0.8e-6;
/** Lines that together hold this much of the weighted power settle the verdict; the rest are sampled more coarsely. */
const weightThatMatters = 0.99;
const linesThatMatter = 6;
/** Lines tied to one another by the loudness of their sources. */
const linesPooled = 9;
const draws = 1000;

/**
 * The causes of every line of a channel, and of most of its A-weighted hum in the reference recording.
 *
 * @remarks Orders are taken as independent given the design: a coincidence at one order says nothing of another.
 */
export function attributeChannel(evidence: ChannelEvidence): ChannelAnswer {
  const { settings, reference, readings, random } = evidence;
  const { design, orders, find } = layOut(evidence);
  const own = repeatsOf(evidence);
  const scatter = widest(scatterFrom([own]), scatterFrom(evidence.repeats ?? [own]));
  const total = orders.reduce((sum, { heard }) => sum + heard, 0);
  let settled = 0;
  const wanted = orders.map(({ heard }, k) => {
    const matters = k < linesThatMatter && settled < weightThatMatters * total;
    settled += heard;
    return matters ? "verdict" : "line";
  });
  const isTied = readings.some((line) => line.phase_rad !== undefined && find(line));
  const sizes = samplesWithin(wanted, isTied ? costWhenTied : 1, evidence.budget_s / (cost_s * effortOf(design)));
  const drawn = orders.slice(0, sizes.length).map(({ order, used }, k): LineDraws => {
    const seen = used.map((line): Seen => {
      return {
        sight: find(line)!.j,
        amplitude: line.level_Vrms,
        noise: line.doubt_Vrms / 1.96,
        // Phases cost time, and are worth it where the verdict rests.
        ...(wanted[k] === "verdict" && { phase_rad: line.phase_rad, phaseSd_rad: line.phaseSd_rad, tie: line.tie }),
      };
    });
    return sampleLine(design, seen, { samples: sizes[k]!, random: random.fork(order), scatter });
  });
  const pool = orders
    .slice(0, Math.min(linesPooled, drawn.length))
    .map(({ order, scale_Vrms }, k) => ({ order, scale_Vrms, samples: drawn[k]!.powers }));
  const picks = pool.length === 0 ? [] : poolOrders(pool, design.sources.length, linePrior, draws, random.fork("pool"));
  const pooled = drawn.map(({ powers }, k) => (k < pool.length ? picks.map((pick) => powers[pick[k]!]!) : powers));

  const causes = new Map<LineReading, readonly CauseShare[]>();
  for (const [k, { lines }] of orders.slice(0, drawn.length).entries()) {
    for (const line of lines) {
      const at = find(line);
      if (line.stands && at) causes.set(line, sharesIn(pooled[k]!, at.sight.sources, design));
    }
  }
  // A line that no contrast bears on may be anything that could sound there.
  for (const line of readings) {
    if (!line.stands || causes.has(line)) continue;
    const possible = everythingAt(settings[line.recording]!, line, evidence.reaches);
    causes.set(
      line,
      possible.map((cause) => ({
        ...cause,
        share: 1 / possible.length,
        low: possible.length > 1 ? 0 : 1,
        high: 1,
        leads: 1 / possible.length,
      })),
    );
  }
  const weighed = orders.slice(0, pool.length).map(({ weight }, k) => ({ samples: pooled[k]!, weight }));

  const quiet = !readings.some((line) => line.recording === reference && line.stands);
  const verdict: Verdict = quiet || weighed.length === 0 ? { state: "quiet" } : verdictOf(design, weighed);
  const open = orders.slice(0, pool.length).map(({ order, weight }, k): OpenLine => {
    return { order, weight, phasors: picks.map((pick) => drawn[k]!.phasors[pick[k]!]!) };
  });
  return { design, verdict, causes, open, scatter, unweighed: orders.length - drawn.length };
}

/** What repeats show in a channel. */
export function repeatsOf(evidence: Omit<ChannelEvidence, "repeats">): Repeats {
  const { design, orders, find } = layOut(evidence);
  return repeatsIn(
    design,
    orders.flatMap(({ used }) => used.map((line) => ({ ...line, sight: find(line)!.j }))),
  );
}

function widest(a: Scatter, b: Scatter): Scatter {
  return { contact: Math.max(a.contact, b.contact), building: Math.max(a.building, b.building) };
}

/** The design of the comparable recordings, and the orders that stand in them, the loudest in the reference first. */
function layOut({ settings, comparable, reference, readings, reaches }: Omit<ChannelEvidence, "repeats">) {
  const kept = settings.flatMap((_, r) => (comparable[r] ? [r] : []));
  const design = designOf(
    kept.map((r) => settings[r]!),
    kept.indexOf(reference),
    reaches,
  );
  const sightOf = new Map(
    design.sights.map((sight, j) => [`${kept[sight.recording]!} ${sight.family}`, { sight, j }] as const),
  );
  const find = (reading: LineReading) => sightOf.get(`${reading.recording} ${reading.family}`);

  const standing = new Set(readings.filter((line) => line.stands).map((line) => line.order));
  const orders = [...standing]
    .map((order) => {
      const lines = readings.filter((line) => line.order === order);
      const used = lines.filter((line) => find(line) && !line.crowded && line.level_Vrms > 0);
      const atReference = used.filter((line) => onlyFitted(find(line)!.sight, design));
      const scale_Vrms = Math.max(0, ...used.map((line) => line.level_Vrms));
      const weight = weightA(order * settings[reference]!.supply.frequency_Hz) ** 2;
      const heard = weight * Math.max(0, ...atReference.map((line) => line.level_Vrms ** 2));
      return { order, lines, used, scale_Vrms, weight: weight * scale_Vrms ** 2, heard };
    })
    .filter(({ used }) => used.length > 0)
    .toSorted((a, b) => b.heard - a.heard);
  return { design, orders, find };
}

/** How many samples each line gets, in the order of their weight, so that all together stay within what may be drawn. */
function samplesWithin(wanted: readonly ("verdict" | "line")[], costOfVerdict: number, most: number): number[] {
  const cost = { verdict: costOfVerdict, line: 1 };
  const share = Math.min(1, most / wanted.reduce((sum, kind) => sum + cost[kind] * samples[kind], 0));
  const sizes = wanted.map((kind) => Math.max(leastSamples[kind], Math.round(share * samples[kind])));
  let spent = 0;
  // However little time there is, the loudest lines are weighed.
  return sizes.filter((size, k) => {
    spent += cost[wanted[k]!] * size;
    return k < 3 || spent <= most;
  });
}

/** Moves of one sample times the readings that each of them is weighed against. */
function effortOf({ sources, sights, own }: Design): number {
  const apart = new Set(
    sights.map((sight) => `${sight.sources.join()} ${sight.sources.some((s) => own.has(s)) ? sight.supply : ""}`),
  );
  return (4 + sources.length) * (4 + apart.size);
}

/** Nothing sounds in this sight that was not there when the verdict's recording was made. */
function onlyFitted(sight: Sight, design: Design): boolean {
  return sight.sources.every((s) => design.fitted.includes(s));
}

function everythingAt(setting: Setting, line: LineReading, reaches: (position: string) => boolean): readonly Cause[] {
  if (line.family === "building" && !line.crowded) return [{ cause: "pick-up" }];
  const own: Cause[] = [
    { cause: "amplifier" },
    ...Object.entries(setting.valves)
      .filter(([position]) => reaches(position))
      .map(([position, valve]) => ({ cause: "valve" as const, position, valve })),
  ];
  if (line.family === "supply" && !line.crowded) return own;
  return [{ cause: "pick-up" }, ...(setting.supply.source === "building" ? [{ cause: "mains" as const }] : []), ...own];
}
