import { BadInput } from "../../maths/badInput.ts";
import { catalogueEntry } from "../model.ts";
import { type BiasShift, biasShift, leakAboveSheet, type PositionLimits, type ValvePosition } from "./position.ts";
import { type Settling, settlingOf } from "./settling.ts";
import { type ReferenceReading, type Tester, testerFrom } from "./tester.ts";
import { combined, halfWidth, reading, type Traced } from "./traced.ts";

export interface ValveReading {
  readonly time_h: number;
  readonly phase: "cold" | "hot";
  readonly plate_mA: number;
  readonly gm_mS?: number | undefined;
  readonly gridCurrent_uA?: number | undefined;
  readonly leakage_uA?: number | undefined;
  /** Heater voltage in per cent of its rating; left out, 100. A lowered heater shows what emission is in hand. */
  readonly heater_pct?: number | undefined;
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
  /** Greatest fall of plate current at the lowered heater. */
  readonly slump_pct?: number | undefined;
  /** Most that may still come after the last reading for a section to count as settled. */
  readonly settling_pct?: number | undefined;
}

interface Judging extends VerdictLimits {
  readonly isLong: boolean;
}

export interface VerdictQuestion {
  readonly limits: VerdictLimits;
  readonly reference: readonly ReferenceReading[];
  readonly referenceTrue_mA: number;
  readonly valves: readonly ReadValve[];
  /** 95 % half-width of one reading, scatter only. */
  readonly reading_doubt_pct: number;
  /** Places that the valves might serve. */
  readonly positions?: readonly ValvePosition[] | undefined;
  /** Grid resistance of the tester. */
  readonly testerGridLeak_ohm?: number | undefined;
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
  /** Fall of plate current at the lowered heater, against the reading at full heat nearest in time. */
  readonly slump_pct?: number;
  readonly slumpDoubt_pct?: number;
  /** Where the current is going, from three or more readings after the heat run. */
  readonly settling?: Settling;
}

/** Whether a valve can serve a place, and why not. */
export interface Advice {
  readonly position: string;
  readonly serves: "yes" | "no" | "undecided";
  readonly reasons: readonly string[];
  readonly shifts: readonly BiasShift[];
}

export interface ValveVerdict {
  readonly id: string;
  readonly verdict: "use" | "hold" | "reject";
  readonly reasons: readonly string[];
  readonly sections: readonly SectionVerdict[];
  readonly sectionSpread_pct?: number;
  readonly doubt?: { readonly sectionSpread_pct: number };
  readonly advice?: readonly Advice[];
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
  const limits = { ...question.limits, isLong: isLong(question) };
  return {
    testerShift_pct: 100 * (tester.lastFactor.value - 1),
    doubt: { testerShift_pct: 100 * halfWidth(tester.lastFactor, relative) },
    valves: question.valves.map((valve) => {
      const judged = judgeValve(valve, limits, tester, relative);
      return question.positions === undefined
        ? judged
        : advised(judged, valve, { ...question, limits }, tester, relative);
    }),
    notes: [
      ...trayNotes(question, tester),
      ...(limits.isLong
        ? [
            `Settling was left out: more than ${MOST_SETTLING} sections with three hot readings or more, times the places and one more. Judge the valves in several trays to have it.`,
          ]
        : []),
    ],
  };
}

/** Where a section is going takes some tenths of a millisecond to tell, and once more for each place. */
const MOST_SETTLING = 3000;

/** Too many to tell of each where it is going, unless that has a limit: then the tray is refused. */
function isLong({ valves, limits, positions = [] }: VerdictQuestion): boolean {
  const long = valves.reduce(
    (sum, { sections }) =>
      sum + sections.filter(({ readings }) => readings.filter((r) => r.phase === "hot").length > 2).length,
    0,
  );
  const tooMany = long * (1 + positions.length) > MOST_SETTLING;
  if (tooMany && [limits, ...positions.map((p) => p.limits)].some((l) => l?.settling_pct !== undefined)) {
    throw new BadInput(
      "valves",
      `${long} sections with three hot readings or more${positions.length > 0 ? `, for ${positions.length} places` : ""}`,
      `at most ${MOST_SETTLING} sections, times the places and one more, where settling has a limit`,
      "judge the valves in several trays, or fewer places at a time",
    );
  }
  return tooMany;
}

/**
 * A verdict with advice on each place of the valve's type. A place has the tray's limits but where it has its own; a
 * valve that is inside them but serves no place asked is held.
 */
function advised(
  judged: ValveVerdict,
  valve: ReadValve,
  { limits, positions = [], testerGridLeak_ohm = 0 }: VerdictQuestion & { readonly limits: Judging },
  tester: Tester,
  relative: number,
): ValveVerdict {
  const type = (name: string) => catalogueEntry(name)?.type ?? name;
  const advice = positions
    .filter((position) => position.type === undefined || type(position.type) === type(valve.type))
    .map((position) => adviceOn(valve, limits, position, testerGridLeak_ohm, tester, relative));
  const isOut = judged.verdict === "use" && advice.length > 0 && advice.every(({ serves }) => serves === "no");
  if (!isOut) return { ...judged, advice };
  const first = `Inside every limit of the tray, but serves none of the places asked: ${advice[0]!.reasons[0]}`;
  return { ...judged, verdict: "hold", reasons: [first, ...judged.reasons], advice };
}

/** Where a place sets no limit of its own, so much of the plate current may move with grid current. */
const USUAL_PLATE_SHIFT_pct = 10;

function adviceOn(
  valve: ReadValve,
  tray: Judging,
  position: ValvePosition,
  testerGridLeak_ohm: number,
  tester: Tester,
  relative: number,
): Advice {
  const used = position.sections;
  const sections = valve.sections.filter(({ name }) => used === undefined || used.includes(name));
  if (sections.length === 0) {
    const reason = `${position.position}: none of the sections ${used!.join(", ")} it uses was read; read them.`;
    return { position: position.position, serves: "undecided", reasons: [reason], shifts: [] };
  }
  const limits: Judging & PositionLimits = { ...tray, ...given(position.limits ?? {}) };
  const { findings } = findingsOn({ ...valve, sections }, limits, tester, relative);
  const shifts: BiasShift[] = [];
  for (const section of sections) {
    const gas = lastOf(section.readings, (r) => r.phase === "hot" && r.gridCurrent_uA !== undefined && isFull(r));
    if (gas === undefined) {
      findings.push({
        state: "undecided",
        reason: `Section ${section.name}: grid current was not read after the heat run, so its shift of bias in ${position.position} is not known; read it.`,
      });
      continue;
    }
    const gm = lastOf(section.readings, (r) => r.phase === "hot" && r.gm_mS !== undefined && isFull(r));
    const hot_mA = putRight(valve, section, "hot", tester)?.value;
    const shift = biasShift(
      { name: section.name, gridCurrent_uA: gas.gridCurrent_uA!, gm_mS: gm?.gm_mS, hot_mA },
      valve.type,
      position,
      testerGridLeak_ohm,
      relative,
    );
    shifts.push(shift);
    findings.push(...judgeShift(shift, gas.gridCurrent_uA!, position, limits));
  }
  const outside = findings.filter((f) => f.state === "outside");
  const open = findings.filter((f) => f.state === "undecided");
  const above = leakAboveSheet(valve.type, position);
  const telling = (outside.length > 0 ? outside : open.length > 0 ? open : findings).map(
    ({ reason }) => `${position.position}: ${reason}`,
  );
  return {
    position: position.position,
    serves: outside.length > 0 ? "no" : open.length > 0 ? "undecided" : "yes",
    reasons: above === undefined ? telling : [...telling, `${position.position}: ${above}.`],
    shifts,
  };
}

function judgeShift(
  shift: BiasShift,
  gridCurrent_uA: number,
  { gridLeak_ohm }: ValvePosition,
  limits: PositionLimits,
): Finding[] {
  const why = `${short(Math.abs(gridCurrent_uA))} µA of grid current in ${short(gridLeak_ohm / 1e3)} kΩ moves the bias by ${short(shift.biasShift_V)} V${shift.plateShift_mA === undefined ? "" : ` and the plate current by ${short(shift.plateShift_mA)} mA`}`;
  const findings: Finding[] = [];
  const weigh = (value: number, doubt: number, limit: number, unit: string, what: string): void => {
    const state = judge(value, doubt, limit);
    const stated = `Section ${shift.section}: ${why}, ${short(value)} ± ${short(doubt)} ${unit} of ${what}, limit ${short(limit)} ${unit}`;
    findings.push({ state, reason: sentence(stated, state, value, doubt, limit, "of grid current and gm") });
  };
  const byPlate = limits.plateShift_pct ?? (limits.biasShift_V === undefined ? USUAL_PLATE_SHIFT_pct : undefined);
  if (limits.biasShift_V !== undefined) {
    weigh(shift.biasShift_V, shift.doubt.biasShift_V, limits.biasShift_V, "V", "bias");
  }
  if (byPlate !== undefined && shift.plateShift_pct !== undefined) {
    weigh(shift.plateShift_pct, shift.doubt.plateShift_pct!, byPlate, "%", "plate current");
  } else if (byPlate !== undefined && shift.biasShift_V > 0) {
    findings.push({
      state: "undecided",
      reason: `Section ${shift.section}: ${why}; what that does to the plate current is not known without gm and a reading after the heat run.`,
    });
  }
  return findings;
}

/** Only what is given, so that a limit left out does not cover the tray's. */
function given(limits: PositionLimits): PositionLimits {
  return Object.fromEntries(Object.entries(limits).filter(([, value]) => value !== undefined));
}

function findingsOn(valve: ReadValve, limits: Judging, tester: Tester, relative: number) {
  const currents = valve.sections.map((section) => ({
    cold: putRight(valve, section, "cold", tester),
    hot: putRight(valve, section, "hot", tester),
  }));
  const findings: Finding[] = [];
  const sections = valve.sections.map((section, i): SectionVerdict => {
    const judged = judgeDrift(section.name, currents[i]!, limits.drift_pct, relative);
    if (judged.finding) findings.push(judged.finding);
    for (const quantity of ["gridCurrent_uA", "leakage_uA"] as const) {
      const limit = limits[quantity];
      if (limit !== undefined) findings.push(judgeSize(section, quantity, limit, relative));
    }
    if (limits.gm_min_pct !== undefined) findings.push(judgeGm(valve.type, section, limits.gm_min_pct, relative));
    const slump = judgeSlump(valve, section, limits.slump_pct, tester, relative);
    if (slump.finding) findings.push(slump.finding);
    const settling = limits.isLong
      ? { figures: {} }
      : judgeSettling(valve, section, limits.settling_pct, tester, relative);
    if ("finding" in settling && settling.finding) findings.push(settling.finding);
    return { ...judged.section, ...slump.figures, ...settling.figures };
  });
  const spread = judgeSpread(
    valve.sections,
    currents.map((c) => c.hot),
    limits.sectionSpread_pct,
    relative,
  );
  if (spread?.finding) findings.push(spread.finding);
  return { findings, sections, spread: spread?.figures };
}

function judgeValve(valve: ReadValve, limits: Judging, tester: Tester, relative: number): ValveVerdict {
  const { findings, sections, spread } = findingsOn(valve, limits, tester, relative);
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
  return { id: valve.id, verdict, reasons: [...telling, ...alone], sections, ...spread };
}

/** A reading at a lowered heater is of its own kind: it tells emission, and stands for nothing else. */
const isFull = ({ heater_pct }: ValveReading): boolean => heater_pct === undefined || heater_pct >= 97;

/** A raw current and its tester's correction as one figure. */
function corrected(name: string, { time_h, plate_mA }: ValveReading, tester: Tester): Traced {
  const factor = tester.factorAt(time_h);
  const raw = reading(name, plate_mA);
  const value = raw.value / factor.value;
  return combined(value, [
    [raw, 1 / factor.value],
    [factor, -value / factor.value],
  ]);
}

function judgeSlump(
  valve: ReadValve,
  section: SectionReadings,
  limit_pct: number | undefined,
  tester: Tester,
  relative: number,
): { figures: Pick<SectionVerdict, "slump_pct" | "slumpDoubt_pct">; finding?: Finding } {
  const low = lastOf(section.readings, (r) => !isFull(r));
  const full =
    low &&
    section.readings
      .filter((r) => isFull(r) && r.phase === low.phase)
      .reduce<ValveReading | undefined>(
        (a, b) => (a && Math.abs(a.time_h - low.time_h) <= Math.abs(b.time_h - low.time_h) ? a : b),
        undefined,
      );
  if (low === undefined || full === undefined || !(full.plate_mA > 0)) {
    if (limit_pct === undefined) return { figures: {} };
    const missing =
      low === undefined
        ? "no reading at a lowered heater (heater_pct below 97), so its emission is not known; take one"
        : "no reading at full heat in the same phase to hold the lowered one against; take one";
    return { figures: {}, finding: { state: "undecided", reason: `Section ${section.name}: ${missing}.` } };
  }
  const name = `${valve.id} ${section.name}`;
  const [below, above] = [corrected(`${name} lowered`, low, tester), corrected(`${name} full`, full, tester)];
  const slump = combined(100 * (1 - below.value / above.value), [
    [below, -100 / above.value],
    [above, (100 * below.value) / above.value ** 2],
  ]);
  const doubt_pct = halfWidth(slump, relative);
  const figures = { slump_pct: slump.value, slumpDoubt_pct: doubt_pct };
  if (limit_pct === undefined) return { figures };
  const state = judge(slump.value, doubt_pct, limit_pct);
  const stated = `Section ${section.name}: plate current falls by ${pct(slump.value)} ± ${pct(doubt_pct)} at ${pct(low.heater_pct!)} heater, limit ${pct(limit_pct)}`;
  return {
    figures,
    finding: { state, reason: sentence(stated, state, slump.value, doubt_pct, limit_pct, "at both heater voltages") },
  };
}

/** Not settled holds a valve and never rejects it: time may mend it. */
function judgeSettling(
  valve: ReadValve,
  section: SectionReadings,
  limit_pct: number | undefined,
  tester: Tester,
  relative: number,
): { figures: Pick<SectionVerdict, "settling">; finding?: Finding } {
  const hot = section.readings.flatMap((r, i) =>
    r.phase === "hot" && isFull(r)
      ? [{ time_h: r.time_h, plate: corrected(`${valve.id} ${section.name} ${i}`, r, tester) }]
      : [],
  );
  const settling = settlingOf(hot, relative, limit_pct ?? USUAL_SETTLING_pct);
  if (limit_pct === undefined) return { figures: settling ? { settling } : {} };
  if (settling === undefined) {
    const reason = `Section ${section.name}: fewer than three readings after the heat run began at different times, so whether it has settled is not known; read again.`;
    return { figures: {}, finding: { state: "undecided", reason } };
  }
  return {
    figures: { settling },
    finding: {
      state: settling.state === "settled" ? "inside" : "undecided",
      reason: `Section ${section.name}: ${settling.reason}`,
    },
  };
}

const USUAL_SETTLING_pct = 1;

function putRight(
  valve: ReadValve,
  section: SectionReadings,
  phase: "cold" | "hot",
  tester: Tester,
): Traced | undefined {
  const last = lastOf(section.readings, (r) => r.phase === phase && isFull(r));
  return last && corrected(`${valve.id} ${section.name} ${phase}`, last, tester);
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
  const last = lastOf(section.readings, (r) => r.phase === "hot" && r[quantity] !== undefined && isFull(r));
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
  const last = lastOf(section.readings, (r) => r.phase === "hot" && r.gm_mS !== undefined && isFull(r));
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
