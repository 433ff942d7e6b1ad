import { BadInput, quote } from "../../maths/badInput.ts";
import { checkNetlist } from "../check.ts";
import { buildCircuit, type Circuit } from "../circuit.ts";
import { deviceCurrents, mostElectrodes } from "../device.ts";
import { isValve, type Netlist } from "../netlist.ts";
import { outputNodes } from "../response.ts";
import { electrodeVolts } from "../settle.ts";
import { type Course, march } from "./march.ts";
import { rippleOf } from "./ripple.ts";
import { type Swing, swing } from "./swing.ts";

interface Mains {
  /** Id of the voltage source that the mains comes in by; its dc_V stays. */
  readonly source: string;
  readonly frequency_Hz: number;
  readonly voltage_Vrms: number;
}

export interface StartUpQuestion {
  readonly mains?: Mains | undefined;
  readonly duration_s: number;
  /** Nodes to be watched. */
  readonly points: readonly string[];
  /** Phase of the mains' sine at the moment of switching on. */
  readonly switchOn_deg?: number | undefined;
  /** Time until valves give their full current: for all, or by id. */
  readonly warmUp_s?: number | Readonly<Record<string, number>> | undefined;
  /** Ratings of capacitors, by id. */
  readonly ratings_V?: Readonly<Record<string, number>> | undefined;
  /** Local error of a step, relative. */
  readonly tolerance?: number | undefined;
}

interface PointInTime {
  /** Ends of the spans (whole periods of the mains) over which the next three stand. */
  readonly time_s: readonly number[];
  readonly mean_V: readonly number[];
  readonly low_V: readonly number[];
  readonly high_V: readonly number[];
  readonly final_V: number;
  readonly peak_V: number;
  readonly peakAt_s: number;
  /** Highest above the highest of the last period. */
  readonly overshoot_V: number;
  /** After this the mean keeps within 2 % of the last; left out where it still moves. */
  readonly settle_s?: number;
  /** Over the last period. */
  readonly ripple_Vpp: number;
  /** Orders of the mains frequency. */
  readonly ripple: readonly { readonly order: number; readonly level_Vrms: number }[];
}

interface DiodeInTime {
  readonly peak_mA: number;
  readonly peakAt_s: number;
  /** Over the last periods. */
  readonly runningPeak_mA: number;
  readonly running_mArms: number;
  readonly runningMean_mA: number;
  readonly reverse_V: number;
}

interface CapacitorInTime {
  readonly peak_V: number;
  readonly running_mArms: number;
  readonly rated_V?: number;
  readonly state?: "within" | "over";
}

export interface StartUp {
  readonly state: "solved";
  readonly points: Readonly<Record<string, PointInTime>>;
  readonly diodes: Readonly<Record<string, DiodeInTime>>;
  readonly capacitors: Readonly<Record<string, CapacitorInTime>>;
  /** Highest current of the mains' source, switched on at the worst moment of its wave, everything cold and empty. */
  readonly inrush?: { readonly peak_A: number; readonly switchOn_deg: number };
  readonly notes: readonly string[];
}

interface StuckInTime {
  readonly state: "undecided";
  readonly reason: string;
  readonly notes: readonly string[];
}

const usualTolerance = 1e-4;
/** Common practice: an indirectly heated small valve gives its current about so long after switching on. */
export const usualWarmUp_s = 11;
/** Share of the warming time in which nothing is drawn yet. */
const coldShare = 0.4;
const lastPeriods = 4;
const stepsInPeriod = 40;
/** About six seconds, in millionths. */
const mostWork_us = 6e6;
const mostSpans = 20_000;

/**
 * A circuit switched on: capacitors empty, coils without current, sources from time 0, valves warming up.
 *
 * Valves and valve rectifiers give a share w of their current, nothing for two fifths of `warmUp_s`, then rising:
 *
 *     w(t) = 3τ² − 2τ³,  τ = (t/warmUp − 0.4)/0.6 within 0 to 1
 *
 * (common practice; real heaters differ by type and by how they are fed).
 *
 * @returns "undecided" where no step however short could be taken
 * @throws BadInput as `solveRest`, for names that are not in the net list, and for more than can be done in time
 */
export function startUp(netlist: Netlist, question: StartUpQuestion, path = "netlist"): StartUp | StuckInTime {
  checkNetlist(netlist, path, true);
  const circuit = buildCircuit(netlist, path);
  const points = question.points.map((node, i) => {
    if (circuit.unknownOf(node) !== undefined) return { node, unknown: outputNodes(circuit, node)[0] };
    throw new BadInput(
      `points[${i}]`,
      quote(node),
      `a node of the net list (${circuit.nodeNames.slice(0, 30).join(", ")})`,
      "correct the node's name",
    );
  });
  const branch = mainsBranch(circuit, question.mains);
  checkRatings(netlist, question.ratings_V);
  const warmUps = warmUpsOf(circuit, question.warmUp_s);
  const period_s = question.mains ? 1 / question.mains.frequency_Hz : question.duration_s / 200;
  const spans = Math.max(1, Math.round(question.duration_s / period_s));
  if (spans > mostSpans) throw tooLong(question.duration_s, mostSpans * period_s);
  const work = {
    left_us: mostWork_us,
    each_us: 1 + circuit.devices.length + 0.1 * circuit.solvers.alternating.places.length,
  };

  const courseFrom = (phase_deg: number, warmUps: readonly number[]): Course => ({
    drive(time_s, into) {
      into.set(circuit.drive);
      if (!question.mains) return;
      const angle = 2 * Math.PI * question.mains.frequency_Hz * time_s + (phase_deg * Math.PI) / 180;
      into[branch] = into[branch]! + Math.SQRT2 * question.mains.voltage_Vrms * Math.sin(angle);
    },
    warmth: (device, time_s) => risen(time_s, warmUps[device]!),
  });

  const notes: string[] = [];
  const watch = watcher(circuit, points, warmUps, spans * period_s - Math.min(lastPeriods, spans) * period_s);
  const run = march(circuit, courseFrom(question.switchOn_deg ?? 0, warmUps), {
    tolerance: question.tolerance ?? usualTolerance,
    longestStep_s: period_s / stepsInPeriod,
  });
  for (let span = 0; span < spans; span++) {
    const until_s = (span + 1) * period_s;
    while (run.time_s < until_s * (1 - 1e-12)) {
      const before_s = run.time_s;
      const solves = run.solves;
      if (!run.advance(until_s)) {
        return {
          state: "undecided",
          reason: `at ${run.time_s.toPrecision(6)} s no step was short enough; look for parts without any resistance that are switched onto one another`,
          notes: [],
        };
      }
      watch.step(run.time_s - before_s, run.time_s, run.x);
      work.left_us -= work.each_us * (run.solves - solves);
      if (work.left_us < 0) throw tooLong(question.duration_s, run.time_s);
    }
    watch.endSpan(run.time_s);
  }
  const answer = watch.answer(question.mains?.frequency_Hz, question.ratings_V ?? {});
  const inrush = question.mains && worstInrush(circuit, branch, period_s, courseFrom, warmUps, work);
  notes.push(...remarks(netlist, question, answer.points, inrush !== undefined));
  return { state: "solved", ...answer, ...(inrush ? { inrush } : {}), notes };
}

function tooLong(duration_s: number, possible_s: number): BadInput {
  return new BadInput(
    "duration_s",
    `${duration_s} s`,
    `about ${possible_s.toPrecision(2)} s at most for this net list, so that an answer comes within 10 s`,
    "ask for a shorter time, shorten warmUp_s, or leave out stages that do not matter here",
  );
}

function mainsBranch(circuit: Circuit, mains: Mains | undefined): number {
  if (mains === undefined) return -1;
  const index = circuit.netlist.parts.findIndex(({ id }) => id === mains.source);
  const part = circuit.netlist.parts[index];
  if (part?.kind === "voltage") return circuit.currentOf[index]!;
  const sources = circuit.netlist.parts.filter(({ kind }) => kind === "voltage").map(({ id }) => id);
  throw new BadInput(
    "mains.source",
    part === undefined ? `${quote(mains.source)}, not a part` : `${quote(mains.source)}, a ${part.kind}`,
    `the id of a voltage source (${sources.join(", ") || "there is none"})`,
    "name the source that the mains comes in by",
  );
}

function checkRatings(netlist: Netlist, ratings: Readonly<Record<string, number>> = {}): void {
  for (const id of Object.keys(ratings)) {
    if (netlist.parts.some((part) => part.id === id && part.kind === "capacitor")) continue;
    throw new BadInput(
      `ratings_V.${id}`,
      quote(id),
      "the id of a capacitor of the net list",
      "correct the id, or take the rating out",
    );
  }
}

function warmUpsOf(circuit: Circuit, given: StartUpQuestion["warmUp_s"] = usualWarmUp_s): number[] {
  const { parts } = circuit.netlist;
  if (typeof given === "object") {
    for (const id of Object.keys(given)) {
      if (parts.some((part) => part.id === id && (isValve(part) || part.kind === "rectifier"))) continue;
      throw new BadInput(`warmUp_s.${id}`, quote(id), "the id of a valve of the net list", "correct the id");
    }
  }
  return circuit.devices.map(({ part: index }) => {
    const part = parts[index]!;
    if (!isValve(part) && part.kind !== "rectifier") return 0;
    return typeof given === "number" ? given : (given[part.id] ?? usualWarmUp_s);
  });
}

function risen(time_s: number, warmUp_s: number): number {
  if (time_s >= warmUp_s) return 1;
  const share = Math.max(0, (time_s / warmUp_s - coldShare) / (1 - coldShare));
  return share * share * (3 - 2 * share);
}

interface Watcher {
  step(length_s: number, time_s: number, x: Float64Array): void;
  endSpan(time_s: number): void;
  answer(
    frequency_Hz: number | undefined,
    ratings_V: Readonly<Record<string, number>>,
  ): Pick<StartUp, "points" | "diodes" | "capacitors">;
}

function watcher(
  circuit: Circuit,
  points: readonly { readonly node: string; readonly unknown: number }[],
  warmUps: readonly number[],
  runningFrom_s: number,
): Watcher {
  const { parts } = circuit.netlist;
  const ends: number[] = [];
  const watched = points.map(({ node, unknown }) => ({ node, unknown, swing: swing(), spans: [] as Swing[] }));
  const tail = { time_s: [] as number[], volts: points.map(() => [] as number[]) };
  const diodes = circuit.devices.flatMap((device, d) => {
    const { kind, id } = parts[device.part]!;
    return kind === "diode" || kind === "rectifier"
      ? [{ id, device, d, all: swing(), running: swing(), volts: swing() }]
      : [];
  });
  const capacitors = parts.flatMap((part) => {
    if (part.kind !== "capacitor") return [];
    const [a, b] = part.between.map((node) => circuit.unknownOf(node)!);
    return [{ id: part.id, farad: part.uF * 1e-6, a: a!, b: b!, volts: 0, all: swing(), running: swing() }];
  });
  const u = new Float64Array(mostElectrodes);
  const now = deviceCurrents();
  const at = (x: Float64Array, unknown: number): number => (unknown < 0 ? 0 : x[unknown]!);
  return {
    step(length_s, time_s, x) {
      const isRunning = time_s > runningFrom_s;
      for (const point of watched) point.swing.add(at(x, point.unknown), length_s, time_s);
      if (isRunning) {
        tail.time_s.push(time_s);
        watched.forEach(({ unknown }, i) => {
          tail.volts[i]!.push(at(x, unknown));
        });
      }
      for (const { device, d, all, running, volts } of diodes) {
        electrodeVolts(device.nodes, x, u);
        device.evaluate(u, now);
        const amps = now.current_A[0]! * risen(time_s, warmUps[d]!);
        all.add(amps, length_s, time_s);
        volts.add(u[0]!, length_s, time_s);
        if (isRunning) running.add(amps, length_s, time_s);
      }
      for (const capacitor of capacitors) {
        const volts = at(x, capacitor.a) - at(x, capacitor.b);
        capacitor.all.add(volts, length_s, time_s);
        if (isRunning) {
          // The charge that a step brings, as a level current over it.
          capacitor.running.addLevel((capacitor.farad * (volts - capacitor.volts)) / length_s, length_s);
        }
        capacitor.volts = volts;
      }
    },
    endSpan(time_s) {
      ends.push(time_s);
      for (const point of watched) {
        point.spans.push(point.swing);
        point.swing = swing(point.swing.last);
      }
    },
    answer(frequency_Hz, ratings_V) {
      return {
        points: Object.fromEntries(
          watched.map(({ node, spans }, i) => [
            node,
            pointOf(ends, spans, frequency_Hz, { time_s: tail.time_s, volts: tail.volts[i]! }),
          ]),
        ),
        diodes: Object.fromEntries(
          diodes.map(({ id, all, running, volts }) => [
            id,
            {
              peak_mA: all.high * 1e3,
              peakAt_s: all.highAt_s,
              runningPeak_mA: running.high * 1e3,
              running_mArms: running.rms * 1e3,
              runningMean_mA: running.mean * 1e3,
              reverse_V: Math.max(0, -volts.low),
            },
          ]),
        ),
        capacitors: Object.fromEntries(
          capacitors.map(({ id, all, running }) => {
            const peak_V = Math.max(all.high, -all.low);
            const rated_V = ratings_V[id];
            const judged =
              rated_V === undefined
                ? {}
                : { rated_V, state: peak_V > rated_V ? ("over" as const) : ("within" as const) };
            return [id, { peak_V, running_mArms: running.rms * 1e3, ...judged }];
          }),
        ),
      };
    },
  };
}

/** Of the last mean: within this the mean counts as settled. */
const near = 0.02;
/** Moving by more than this share over the last tenth, it is not at its end yet. */
const drifting = 0.002;
const mostSamples = 400;
const highestRippleOrder = 10;

function pointOf(
  ends: readonly number[],
  spans: readonly Swing[],
  frequency_Hz: number | undefined,
  tail: { readonly time_s: readonly number[]; readonly volts: readonly number[] },
): PointInTime {
  const last = spans.at(-1)!;
  const means = spans.map(({ mean }) => mean);
  const final_V = last.mean;
  const highest = spans.reduce((top, span) => (span.high > top.high ? span : top));
  const strayed = means.findLastIndex((mean) => Math.abs(mean - final_V) > near * Math.abs(final_V));
  const isDrifting = isStillMoving(means);
  const every = Math.ceil(spans.length / mostSamples);
  const shown = spans.flatMap((_, i) => ((spans.length - 1 - i) % every === 0 ? [i] : []));
  const group = <T>(pick: (span: Swing) => number, join: (values: number[]) => T): T[] =>
    shown.map((end) => join(spans.slice(Math.max(0, end - every + 1), end + 1).map(pick)));
  return {
    time_s: shown.map((i) => ends[i]!),
    mean_V: group(
      ({ mean }) => mean,
      (values) => values.reduce((sum, v) => sum + v, 0) / values.length,
    ),
    low_V: group(
      ({ low }) => low,
      (values) => Math.min(...values),
    ),
    high_V: group(
      ({ high }) => high,
      (values) => Math.max(...values),
    ),
    final_V,
    peak_V: highest.high,
    peakAt_s: highest.highAt_s,
    overshoot_V: highest.high - last.high,
    ...(isDrifting ? {} : { settle_s: strayed < 0 ? 0 : ends[strayed]! }),
    ripple_Vpp: last.high - last.low,
    ripple: frequency_Hz === undefined ? [] : rippleOf(tail, frequency_Hz, highestRippleOrder),
  };
}

function isStillMoving(means: readonly number[]): boolean {
  const final = means.at(-1)!;
  const earlier = means[Math.max(0, Math.floor(means.length * 0.9) - 1)]!;
  return means.length < 10 || Math.abs(final - earlier) > drifting * Math.abs(final);
}

/** Switching on at every 15° of the wave, then nearer and nearer to the worst. */
function worstInrush(
  circuit: Circuit,
  branch: number,
  period_s: number,
  courseFrom: (phase_deg: number, warmUps: readonly number[]) => Course,
  warmUps: readonly number[],
  work: { left_us: number; readonly each_us: number },
): { peak_A: number; switchOn_deg: number } | undefined {
  const peakFrom = (phase_deg: number): number => {
    const run = march(circuit, courseFrom(phase_deg, warmUps), {
      tolerance: usualTolerance,
      longestStep_s: period_s / stepsInPeriod,
    });
    let peak = 0;
    while (run.time_s < period_s && work.left_us > 0) {
      const solves = run.solves;
      if (!run.advance(period_s)) return Number.NaN;
      work.left_us -= work.each_us * (run.solves - solves);
      peak = Math.max(peak, Math.abs(run.x[branch]!));
    }
    return peak;
  };
  let worst = { peak_A: 0, switchOn_deg: 0 };
  const look = (phase_deg: number): void => {
    const peak_A = peakFrom(phase_deg);
    if (peak_A > worst.peak_A) worst = { peak_A, switchOn_deg: (phase_deg + 360) % 360 };
  };
  for (let phase = 0; phase < 360; phase += 15) look(phase);
  for (let stride = 5; stride > 0.5; stride /= 2) {
    const from = worst.switchOn_deg;
    look(from - stride);
    look(from + stride);
  }
  return work.left_us > 0 && worst.peak_A > 0 ? worst : undefined;
}

function remarks(
  netlist: Netlist,
  question: StartUpQuestion,
  points: Readonly<Record<string, PointInTime>>,
  hasInrush: boolean,
): string[] {
  const warmUp_s = question.warmUp_s ?? usualWarmUp_s;
  const longest_s = typeof warmUp_s === "number" ? warmUp_s : Math.max(usualWarmUp_s, ...Object.values(warmUp_s));
  const hasValves = netlist.parts.some((part) => isValve(part) || part.kind === "rectifier");
  const moving = Object.entries(points).flatMap(([node, { settle_s }]) => (settle_s === undefined ? [node] : []));
  return [
    ...(hasValves
      ? [
          `valves are taken to draw nothing at first and to reach their full current within ${longest_s} s (common practice, by no data sheet)`,
        ]
      : []),
    ...(hasValves && question.duration_s < longest_s
      ? ["the time ends before the valves draw their full current; the last figures are not those of the warm unit"]
      : []),
    ...(moving.length > 0 ? [`still moving at the end: ${moving.join(", ")}; ask for a longer time`] : []),
    ...(netlist.parts.some(({ kind }) => kind === "transformer")
      ? ["coils are linear: a core that saturates when switched on draws far more than the inrush given"]
      : []),
    ...(question.mains && !hasInrush ? ["no time was left to look for the worst moment of switching on"] : []),
  ];
}
