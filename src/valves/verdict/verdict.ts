import { catalogueEntry } from "../model.ts";
import { type ReferenceReading, type Tester, testerFrom } from "./tester.ts";
import { combined, halfWidth, reading, type Traced } from "./traced.ts";

export interface ValveReading {
  readonly time_h: number;
  readonly phase: "cold" | "hot";
  readonly plate_mA: number;
  readonly gm_mS?: number | undefined;
  readonly gridCurrent_uA?: number | undefined;
  readonly leakage_uA?: number | undefined;
}

export interface SectionReadings {
  readonly name: string;
  readonly readings: readonly ValveReading[];
}

export interface ReadValve {
  readonly id: string;
  readonly type: string;
  readonly sections: readonly SectionReadings[];
}

export interface VerdictLimits {
  readonly drift_pct?: number | undefined;
  readonly sectionSpread_pct?: number | undefined;
  readonly gridCurrent_uA?: number | undefined;
  readonly leakage_uA?: number | undefined;
  /** Least gm, in per cent of the gm that the catalogue prints for the type. */
  readonly gm_min_pct?: number | undefined;
}

export interface VerdictQuestion {
  readonly limits: VerdictLimits;
  readonly reference: readonly ReferenceReading[];
  readonly referenceTrue_mA: number;
  readonly valves: readonly ReadValve[];
  /** 95 % half-width of one reading, scatter only. */
  readonly reading_doubt_pct: number;
}

export interface SectionVerdict {
  readonly name: string;
  /** Left out, with a reason, where a reading is missing. */
  readonly drift_pct?: number;
  readonly doubt_pct?: number;
  readonly cold_mA?: number;
  readonly hot_mA?: number;
  readonly state: Judged;
  readonly reason?: string;
}

export interface ValveVerdict {
  readonly id: string;
  readonly verdict: "use" | "hold" | "reject";
  readonly reasons: readonly string[];
  readonly sections: readonly SectionVerdict[];
  readonly sectionSpread_pct?: number;
  readonly doubt?: { readonly sectionSpread_pct: number };
}

export interface TrayVerdict {
  readonly testerShift_pct: number;
  readonly doubt: { readonly testerShift_pct: number };
  readonly valves: readonly ValveVerdict[];
  readonly notes: readonly string[];
}

type Judged = "inside" | "outside" | "undecided";
interface Finding {
  readonly state: Judged;
  readonly reason: string;
}

/**
 * Verdicts on valves read before and after a heat run.
 *
 *     put right:  I = reading / (reference reading at that time / referenceTrue_mA)
 *     drift     = I_hot / I_cold − 1            last hot and last cold reading
 *     spread    = (I_max − I_min) / mean of the sections, last hot readings
 *
 * Each reading, the reference valve's too, scatters independently by `reading_doubt_pct` (95 %); a reference reading
 * that serves both ends of a ratio cancels there. A figure is inside a limit when it is by at least its doubt, outside
 * when it is by more than its doubt. `use`: all inside; `reject`: one outside; else `hold`.
 *
 * @remarks Grid current and leakage are judged by size, with the same relative doubt, as the last hot reading that
 *          holds them gives them; gm likewise, against the catalogue's published gm. They are not put right by the
 *          reference valve, which is read for plate current alone.
 */
export function judgeTray(question: VerdictQuestion): TrayVerdict {
  const tester = testerFrom(question.reference, question.referenceTrue_mA);
  const relative = question.reading_doubt_pct / 100;
  return {
    testerShift_pct: 100 * (tester.lastFactor.value - 1),
    doubt: { testerShift_pct: 100 * halfWidth(tester.lastFactor, relative) },
    valves: question.valves.map((valve) => judgeValve(valve, question.limits, tester, relative)),
    notes: trayNotes(question, tester),
  };
}

function judgeValve(valve: ReadValve, limits: VerdictLimits, tester: Tester, relative: number): ValveVerdict {
  const currents = valve.sections.map((section) => ({
    cold: putRight(valve, section, "cold", tester),
    hot: putRight(valve, section, "hot", tester),
  }));
  const findings: Finding[] = [];
  const sections = valve.sections.map((section, i) => {
    const judged = judgeDrift(section.name, currents[i]!, limits.drift_pct, relative);
    if (judged.finding) findings.push(judged.finding);
    for (const quantity of ["gridCurrent_uA", "leakage_uA"] as const) {
      const limit = limits[quantity];
      if (limit !== undefined) findings.push(judgeSize(section, quantity, limit, relative));
    }
    if (limits.gm_min_pct !== undefined) findings.push(judgeGm(valve.type, section, limits.gm_min_pct, relative));
    return judged.section;
  });
  const spread = judgeSpread(
    valve.sections,
    currents.map((c) => c.hot),
    limits.sectionSpread_pct,
    relative,
  );
  if (spread?.finding) findings.push(spread.finding);

  const outside = findings.filter((f) => f.state === "outside");
  const open = findings.filter((f) => f.state === "undecided");
  const verdict = outside.length > 0 ? "reject" : open.length > 0 ? "hold" : "use";
  const telling = [...outside, ...open, ...(verdict === "use" ? findings : [])].map((f) => f.reason);
  const alone =
    limits.sectionSpread_pct !== undefined &&
    valve.sections.length === 1 &&
    (catalogueEntry(valve.type)?.sections ?? 1) > 1
      ? ["Only one of the type's two sections was read: their spread was not judged."]
      : [];
  return { id: valve.id, verdict, reasons: [...telling, ...alone], sections, ...spread?.figures };
}

function putRight(
  valve: ReadValve,
  section: SectionReadings,
  phase: "cold" | "hot",
  tester: Tester,
): Traced | undefined {
  const last = lastOf(section.readings, (r) => r.phase === phase);
  if (last === undefined) return undefined;
  const factor = tester.factorAt(last.time_h);
  const raw = reading(`${valve.id} ${section.name} ${phase}`, last.plate_mA);
  const value = raw.value / factor.value;
  return combined(value, [
    [raw, 1 / factor.value],
    [factor, -value / factor.value],
  ]);
}

function lastOf(readings: readonly ValveReading[], fits: (r: ValveReading) => boolean): ValveReading | undefined {
  return readings
    .filter(fits)
    .reduce<ValveReading | undefined>((a, b) => (a && a.time_h > b.time_h ? a : b), undefined);
}

function judgeDrift(
  name: string,
  { cold, hot }: { cold: Traced | undefined; hot: Traced | undefined },
  limit_pct: number | undefined,
  relative: number,
): { section: SectionVerdict; finding?: Finding } {
  const known = { ...(cold ? { cold_mA: cold.value } : {}), ...(hot ? { hot_mA: hot.value } : {}) };
  if (!cold || !hot || cold.value === 0) {
    const missing = !cold
      ? "no reading before the heat run"
      : !hot
        ? "no reading after the heat run"
        : "no plate current before the heat run";
    const reason = `Section ${name}: ${missing}, so its drift is not known; ${cold && hot ? "check heater and contacts, then read again" : "take that reading"}.`;
    const section = { name, ...known, state: "undecided" as const, reason };
    return limit_pct === undefined ? { section } : { section, finding: { state: "undecided", reason } };
  }
  const ratio = hot.value / cold.value;
  const drift = combined(100 * (ratio - 1), [
    [hot, 100 / cold.value],
    [cold, (-100 * ratio) / cold.value],
  ]);
  const doubt_pct = halfWidth(drift, relative);
  const figures = { name, drift_pct: drift.value, doubt_pct, ...known };
  if (limit_pct === undefined)
    return { section: { ...figures, state: "undecided", reason: "No limit of drift was given." } };
  const state = judge(Math.abs(drift.value), doubt_pct, limit_pct);
  const stated = `Section ${name}: drift ${signed(drift.value)} ± ${pct(doubt_pct)} over the heat run (${mA(cold.value)} to ${mA(hot.value)} mA, tester put right), limit ±${pct(limit_pct)}`;
  const reason = sentence(stated, state, Math.abs(drift.value), doubt_pct, limit_pct, "before and after");
  return { section: { ...figures, state }, finding: { state, reason } };
}

function judgeSpread(
  sections: readonly SectionReadings[],
  hot: readonly (Traced | undefined)[],
  limit_pct: number | undefined,
  relative: number,
): { figures: Pick<ValveVerdict, "sectionSpread_pct" | "doubt">; finding?: Finding } | undefined {
  if (sections.length < 2) return undefined;
  const known = hot.filter((h) => h !== undefined);
  const mean = known.reduce((sum, h) => sum + h.value, 0) / known.length;
  if (known.length < sections.length || !(mean > 0)) {
    const reason = `Sections' spread: ${known.length < sections.length ? "a section was not read after the heat run; take that reading" : "no section carries plate current; check heater and contacts"}.`;
    return limit_pct === undefined ? undefined : { figures: {}, finding: { state: "undecided", reason } };
  }
  const highest = known.reduce((a, b) => (b.value > a.value ? b : a));
  const lowest = known.reduce((a, b) => (b.value < a.value ? b : a));
  const value = (100 * (highest.value - lowest.value)) / mean;
  const spread = combined(value, [
    [highest, 100 / mean],
    [lowest, -100 / mean],
    ...known.map((h) => [h, -value / (mean * known.length)] as const),
  ]);
  const doubt = halfWidth(spread, relative);
  const figures = { sectionSpread_pct: value, doubt: { sectionSpread_pct: doubt } };
  if (limit_pct === undefined) return { figures };
  const state = judge(value, doubt, limit_pct);
  const readings = known.map((h, i) => `${sections[i]!.name} ${mA(h.value)}`).join(", ");
  const stated = `Sections' spread ${pct(value)} ± ${pct(doubt)} after the heat run (${readings} mA), limit ${pct(limit_pct)}`;
  return { figures, finding: { state, reason: sentence(stated, state, value, doubt, limit_pct, "of both sections") } };
}

const WORDS = { gridCurrent_uA: "grid current", leakage_uA: "heater-cathode leakage" } as const;

function judgeSize(
  section: SectionReadings,
  quantity: "gridCurrent_uA" | "leakage_uA",
  limit_uA: number,
  relative: number,
): Finding {
  const what = WORDS[quantity];
  const last = lastOf(section.readings, (r) => r.phase === "hot" && r[quantity] !== undefined);
  if (last === undefined) {
    return {
      state: "undecided",
      reason: `Section ${section.name}: ${what} has a limit but was not read after the heat run; read it.`,
    };
  }
  const size_uA = Math.abs(last[quantity]!);
  const doubt_uA = size_uA * relative;
  const state = judge(size_uA, doubt_uA, limit_uA);
  const stated = `Section ${section.name}: ${what} ${short(size_uA)} ± ${short(doubt_uA)} µA, limit ${short(limit_uA)} µA`;
  return { state, reason: sentence(stated, state, size_uA, doubt_uA, limit_uA, `of ${what}`) };
}

function judgeGm(type: string, section: SectionReadings, least_pct: number, relative: number): Finding {
  const published_mS = catalogueEntry(type)?.published.gm_mS;
  const last = lastOf(section.readings, (r) => r.phase === "hot" && r.gm_mS !== undefined);
  if (published_mS === undefined || last === undefined) {
    const missing =
      last === undefined
        ? "gm has a limit but was not read after the heat run; read it"
        : `gm is limited in per cent of print, but the catalogue has no gm for ${type}; judge it by its sheet`;
    return { state: "undecided", reason: `Section ${section.name}: ${missing}.` };
  }
  const share_pct = (100 * last.gm_mS!) / published_mS;
  const doubt_pct = share_pct * relative;
  const state =
    share_pct - doubt_pct >= least_pct ? "inside" : share_pct + doubt_pct < least_pct ? "outside" : "undecided";
  const stated = `Section ${section.name}: gm ${short(last.gm_mS!)} mS is ${pct(share_pct)} ± ${pct(doubt_pct)} of the ${short(published_mS)} mS printed, at least ${pct(least_pct)} wanted`;
  return { state, reason: sentence(stated, state, share_pct, doubt_pct, least_pct, "of gm") };
}

function judge(size: number, doubt: number, limit: number): Judged {
  if (size + doubt <= limit) return "inside";
  return size - doubt > limit ? "outside" : "undecided";
}

function sentence(stated: string, state: Judged, value: number, doubt: number, limit: number, where: string): string {
  if (state === "inside") return `${stated}: inside.`;
  if (state === "outside") return `${stated}: outside by more than the doubt.`;
  const distance = Math.abs(limit - value);
  const readings = distance > 0 ? Math.ceil((doubt / distance) ** 2) : Infinity;
  const decides =
    readings <= 25
      ? `the mean of ${readings} readings ${where}, and as many of the reference valve, would decide if it stays there`
      : "it stands on the limit: more readings will hardly decide, a longer heat run may";
  return `${stated}: nearer the limit than the doubt; ${decides}.`;
}

function trayNotes({ reference, valves, limits }: VerdictQuestion, tester: Tester): string[] {
  const notes: string[] = [];
  const all = valves.flatMap((v) => v.sections.flatMap((s) => s.readings));
  const times = all.map((r) => r.time_h);
  if (tester.from_h === tester.to_h && times.some((t) => t !== times[0])) {
    notes.push(
      "The reference valve was read at one time only: a drift of the tester between readings cannot be seen, and would look like a drift of the valves.",
    );
  } else if (times.some((t) => t < tester.from_h || t > tester.to_h)) {
    notes.push(
      `Some readings were taken outside the reference valve's (${tester.from_h} to ${tester.to_h} h); its nearest reading was used for them. Read it first and last.`,
    );
  }
  for (const valve of valves) {
    for (const section of valve.sections) {
      const cold = lastOf(section.readings, (r) => r.phase === "cold");
      const hot = lastOf(section.readings, (r) => r.phase === "hot");
      if (cold && hot && cold.time_h > hot.time_h) {
        notes.push(
          `${valve.id} ${section.name}: a reading marked cold (${cold.time_h} h) is later than the last marked hot (${hot.time_h} h); check the marks.`,
        );
      }
    }
  }
  if (limits.gm_min_pct !== undefined)
    notes.push(
      "gm_min_pct counts from the gm printed in the catalogue at the type's published working point; gm readings taken elsewhere cannot be compared with it.",
    );
  if (reference.length > 0)
    notes.push(
      "Doubt counts the scatter of the valve's and the reference valve's readings; a limit is met or missed only by at least the doubt.",
    );
  return notes;
}

const pct = (x: number): string => `${Number(x.toPrecision(3))} %`;
const signed = (x: number): string => `${x > 0 ? "+" : ""}${pct(x)}`;
const mA = (x: number): string => String(Number(x.toPrecision(4)));
const short = (x: number): string => String(Number(x.toPrecision(3)));
