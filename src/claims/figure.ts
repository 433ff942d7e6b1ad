import { guard } from "../measurement/index.ts";
import { isUndoneBy } from "./bearing.ts";
import type { ClaimSpec, Evidence, Model, Requirement, Subject } from "./evidence.ts";
import { type Footing, footing } from "./footing.ts";
import type { Figure, Ledger } from "./ledger.ts";
import type { FigureState } from "./state.ts";
import { thingInWords } from "./things.ts";
import { clockSlack_ms, inWords } from "./when.ts";

/** All that is needed to judge the figures of one claim of one unit. */
export interface Bench {
  readonly ledger: Ledger;
  readonly model: Model;
  readonly unit: string;
  readonly fitted: Readonly<Record<string, string>>;
  readonly claim: ClaimSpec;
  /** Reworks that touched what the claim rests on. */
  readonly reworks: readonly Evidence<"rework">[];
  readonly now_ms: number;
}

type Judged = Pick<FigureState, "state" | "why" | "wouldDecide"> & { readonly instruments: readonly string[] };

/**
 * Judges one required figure by the newest evidence for it that was not superseded.
 *
 * The newest word counts even where it has fallen: an older reading is not called back to answer for it. For a safety
 * claim a reading outside its limits stands against all later ones until it is superseded or repair is recorded, so
 * that no test is repeated until it passes.
 */
export function judgeFigure(bench: Bench, requirement: Requirement): FigureState {
  const place = {
    subject: subjectOf(bench, requirement),
    quantity: requirement.quantity,
    where: whereInWords(bench, requirement),
    ...(requirement.low !== undefined && { low: requirement.low }),
    ...(requirement.high !== undefined && { high: requirement.high }),
  };
  const candidates = evidenceFor(bench, requirement);
  const newest = candidates.at(-1);
  if (!newest) return { ...place, state: "open", ...missing(bench, requirement) };

  let chosen = newest;
  let judged = judge(bench, requirement, newest);
  if (bench.claim.safety && judged.state !== "refuted") {
    for (const earlier of candidates.slice(0, -1).reverse()) {
      const verdict = judge(bench, requirement, earlier);
      if (verdict.state !== "refuted") continue;
      chosen = earlier;
      judged = { ...verdict, why: `${verdict.why}; a failed safety test stands until repair is recorded` };
      break;
    }
  }
  const { instruments, ...verdict } = judged;
  return {
    ...place,
    value: chosen.body.value,
    doubt: chosen.body.doubt,
    evidence: chosen.id,
    ...(instruments.length > 0 && { instrument: instruments.join(", ") }),
    ...(chosen.body.kind === "finding" && { calculation: chosen.body.calculation }),
    at: chosen.at,
    ...verdict,
  };
}

/** What a reading must name to answer the requirement. */
function subjectOf({ unit, fitted }: Bench, requirement: Requirement): Subject {
  const { of, position, section, channel, point } = requirement;
  const valve = of === "valve" ? fitted[position ?? ""] : undefined;
  return {
    ...(valve === undefined ? { unit, ...(position !== undefined && { position }) } : { valve }),
    ...(section !== undefined && { section }),
    ...(channel !== undefined && { channel }),
    ...(point !== undefined && { point }),
  };
}

function evidenceFor(bench: Bench, requirement: Requirement): readonly Figure[] {
  const { ledger, unit, fitted, now_ms } = bench;
  const ofValve = requirement.of === "valve";
  const valve = ofValve ? fitted[requirement.position ?? ""] : undefined;
  if (ofValve && valve === undefined) return [];
  const standing = new Set(Object.values(fitted));

  return ledger
    .figures(ofValve ? "valve" : "unit", valve ?? unit, requirement.quantity)
    .filter(({ id, at, body: { subject } }) => {
      const isSamePlace =
        subject.section === requirement.section &&
        subject.channel === requirement.channel &&
        subject.point === requirement.point &&
        (ofValve || subject.position === requirement.position);
      const isOurs = ofValve
        ? subject.unit === undefined || subject.unit === unit
        : subject.valve === undefined || standing.has(subject.valve);
      return isSamePlace && isOurs && ledger.supersederOf(id) === undefined && Date.parse(at) <= now_ms + clockSlack_ms;
    });
}

function judge(bench: Bench, requirement: Requirement, figure: Figure): Judged {
  const stands = footing(bench.ledger, figure);
  const { instruments } = stands;
  const again = checkInWords(bench.claim);
  const undone = undoing(bench, stands);
  if (undone) return { state: "void", why: undone, wouldDecide: again, instruments };
  const strange = madeWithOtherValves(bench, stands);
  if (strange) return { state: "void", why: strange, wouldDecide: again, instruments };
  if (stands.fallen) return { state: "void", why: stands.fallen.why, wouldDecide: again, instruments };
  if (stands.unvouched) return { state: "undecided", ...stands.unvouched, instruments };
  return { ...judgeValue(bench, requirement, figure), instruments };
}

function judgeValue(bench: Bench, requirement: Requirement, { body }: Figure): Omit<Judged, "instruments"> {
  const { value, doubt, quantity } = body;
  const { low, high, counted } = requirement;
  const { state } = guard({ value, doubt, low, high });
  const reads = `reads ${quantity} ${brief(value)} ± ${brief(doubt)}`;
  const limits = limitsInWords(requirement);
  if (state === "proven" && doubt === 0 && !counted) {
    return {
      state: "undecided",
      why: `reads ${quantity} ${brief(value)} with no doubt stated, and a measured figure without doubt proves nothing`,
      wouldDecide: `state the doubt of the reading (a new entry that supersedes it), or ${midSentence(checkInWords(bench.claim))}`,
    };
  }
  if (state === "proven") return { state, why: `${reads}, inside ${limits} by its doubt` };
  if (state === "refuted") {
    const concession = bench.claim.safety ? "" : ", or ask the owner for a written concession";
    return {
      state,
      why: `${reads}, outside ${limits} by its doubt`,
      wouldDecide: `repair, record the rework, then ${midSentence(checkInWords(bench.claim))}${concession}`,
    };
  }
  const margin = Math.min(
    ...[low, high].filter((limit) => limit !== undefined).map((limit) => Math.abs(value - limit)),
  );
  return {
    state,
    why: `${reads}, nearer to ${limits} than its doubt`,
    wouldDecide:
      margin > 0
        ? `measure ${quantity} again with a doubt of at most ${brief(margin)}`
        : `measure ${quantity} again: it reads the limit itself`,
  };
}

function undoing({ reworks, claim }: Bench, { basis }: Footing): string | undefined {
  const rework = reworks.find((done) => basis.some((entry) => isUndoneBy(entry, done, claim.safety)));
  if (!rework) return undefined;
  const things = [
    ...rework.body.touched.map(thingInWords),
    ...Object.entries(rework.body.fitted ?? {}).map(([position, valve]) => `${valve} fitted at ${position}`),
  ];
  return `the rework ${rework.id} of ${inWords(rework.at)} touched what it rests on (${things.join("; ")})`;
}

/** A recording made with borrowed valves shows what they do, and proves nothing of the unit as it stands. */
function madeWithOtherValves({ unit, fitted }: Bench, { basis }: Footing): string | undefined {
  const recordings = basis.filter((entry): entry is Evidence<"recording"> => entry.body.kind === "recording");
  const strangers = recordings.map(({ body }) =>
    Object.entries(body.valves).find(([position, valve]) => body.unit === unit && fitted[position] !== valve),
  );
  if (recordings.length === 0 || strangers.some((stranger) => stranger === undefined)) return undefined;
  const [position, valve] = strangers[0]!;
  const now = fitted[position] ?? "no valve";
  return `it was recorded with ${valve} at ${position}, where ${now} stands`;
}

function missing(bench: Bench, requirement: Requirement): Pick<FigureState, "why" | "wouldDecide"> {
  if (requirement.of === "valve" && bench.fitted[requirement.position ?? ""] === undefined) {
    return {
      why: `no valve stands at ${requirement.position}`,
      wouldDecide: `fit a valve at ${requirement.position} and record it`,
    };
  }
  return { why: `no ${requirement.quantity} on record`, wouldDecide: checkInWords(bench.claim) };
}

export function checkInWords({ check }: Pick<ClaimSpec, "check">): string {
  const wait = check.wait_h > 0 ? `, then ${brief(check.wait_h)} h by itself` : "";
  return `${check.how} (${brief(check.hands_min)} min${wait})`;
}

function midSentence(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

function whereInWords({ fitted, unit }: Bench, requirement: Requirement): string {
  const { position, section, channel, point } = requirement;
  const valve = requirement.of === "valve" && position !== undefined ? fitted[position] : undefined;
  const words = [
    position,
    section === undefined ? undefined : `section ${section}`,
    channel === undefined ? undefined : `${channel} channel`,
    point,
    valve === undefined ? undefined : `(${valve})`,
  ].filter((word) => word !== undefined);
  return words.length > 0 ? words.join(" ") : `unit ${unit}`;
}

function limitsInWords({ low, high }: Requirement): string {
  if (low === undefined) return `at most ${brief(high ?? Number.NaN)}`;
  if (high === undefined) return `at least ${brief(low)}`;
  return `${brief(low)} to ${brief(high)}`;
}

function brief(value: number): string {
  return String(Number(value.toPrecision(4)));
}
