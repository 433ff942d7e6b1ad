import type { BodyOf, ClaimSpec, Evidence, Requirement } from "../claims/evidence.ts";
import type { Shop } from "../claims/index.ts";
import { isOffsetSupply } from "./humHearing.ts";
import type { ValveVerdict } from "./valveTable.ts";
import { version } from "./version.ts";
import type { HumHearingView } from "./views.ts";

export type Finding = Omit<BodyOf<"finding">, "kind">;

/** Three answers only, ten decibels to either side of the threshold of hearing: that is the margin's doubt. */
const hearingDoubt_dB = 10;

/**
 * The hum margin of a channel: how far its loudest own line lies over the threshold of hearing, on the most
 * sensitive of the shop's headphones.
 *
 * On a clean supply at an offset frequency only the unit's own lines count; pick-up is the building's. On the
 * building's own supply the two can't be told apart, so such a recording can only prove silence, never accuse.
 *
 * @param hidden_dB  margin that a line just hidden in the floor would have, for a channel without lines
 */
export function humMargin(
  hearing: HumHearingView,
  recording: Evidence<"recording">,
  channel: string,
  hidden_dB: number | undefined,
): Finding | undefined {
  if (hearing.headphones.length === 0) return undefined;
  const name = recording.body.recording;
  const isOffset = isOffsetSupply(recording);
  const margins = hearing.lines
    .filter((line) => line.recording === name && line.channel === channel && (!isOffset || line.of === "supply"))
    .flatMap((line) => line.heardOn.map((heard) => heard.margin_dB));
  const worst = Math.max(...margins, ...(hidden_dB === undefined ? [] : [hidden_dB]));
  if (!Number.isFinite(worst)) return undefined;
  if (!isOffset && worst + hearingDoubt_dB > 0) return undefined;
  return {
    subject: { unit: recording.body.unit, channel },
    quantity: "hum_margin_dB",
    value: round(worst, 2),
    doubt: hearingDoubt_dB,
    calculation: "hum.audible",
    version,
    from: [recording.id],
  };
}

/** Balance and distortion from a tone recording: left over right, and harmonics of each channel. */
export function toneFindings(
  recording: Evidence<"recording">,
  channels: Readonly<
    Record<string, { level_Vrms: number; thd_pct: number; doubt: { level_Vrms: number; thd_pct: number } }>
  >,
): Finding[] {
  const from = { calculation: "bench.tone", version, from: [recording.id] };
  const { unit } = recording.body;
  const distortion = Object.entries(channels).map(
    ([channel, { thd_pct, doubt }]): Finding => ({
      subject: { unit, channel },
      quantity: "thd_pct",
      value: thd_pct,
      doubt: doubt.thd_pct,
      ...from,
    }),
  );
  const { left, right } = channels;
  if (!left || !right || !(left.level_Vrms > 0) || !(right.level_Vrms > 0)) return distortion;
  const relative = Math.hypot(left.doubt.level_Vrms / left.level_Vrms, right.doubt.level_Vrms / right.level_Vrms);
  return [
    {
      subject: { unit },
      quantity: "balance_dB",
      value: 20 * Math.log10(left.level_Vrms / right.level_Vrms),
      doubt: (20 / Math.LN10) * relative,
      ...from,
    },
    ...distortion,
  ];
}

/** Drift, section spread, leakage and grid current of a valve around its heat run. */
export function valveFindings(
  verdict: ValveVerdict,
  readings: readonly Evidence<"valve-reading">[],
  reference: readonly Evidence<"reference-reading">[],
  reading_doubt_pct: number,
): Finding[] {
  const from = {
    calculation: "valves.verdict",
    version,
    from: [...readings.map(({ id }) => id), ...nearest(readings, reference)],
  };
  const valve = verdict.id;
  const drift = verdict.sections.flatMap(({ name, drift_pct, doubt_pct }): Finding[] =>
    drift_pct === undefined || doubt_pct === undefined
      ? []
      : [{ subject: { valve, section: name }, quantity: "drift_pct", value: drift_pct, doubt: doubt_pct, ...from }],
  );
  const spread: Finding[] =
    verdict.sectionSpread_pct === undefined || verdict.doubt === undefined
      ? []
      : [
          {
            subject: { valve },
            quantity: "sectionSpread_pct",
            value: verdict.sectionSpread_pct,
            doubt: verdict.doubt.sectionSpread_pct,
            ...from,
          },
        ];
  const currents = (["leakage_uA", "gridCurrent_uA"] as const).flatMap((quantity) =>
    verdict.sections.flatMap(({ name }): Finding[] => {
      const last = readings.findLast(
        ({ body }) => body.section === name && body.phase === "hot" && body[quantity] !== undefined,
      );
      const value = last?.body[quantity];
      if (!last || value === undefined) return [];
      const doubt = Math.max(0.01, (Math.abs(value) * reading_doubt_pct) / 100);
      return [
        {
          subject: { valve, section: name },
          quantity,
          value,
          doubt,
          calculation: "valves.verdict",
          version,
          from: [last.id],
        },
      ];
    }),
  );
  return [...drift, ...spread, ...currents];
}

/** Findings that one of the claims asks for and that are not on record yet, from the same evidence and version. */
export function missingFindings(shop: Shop, claims: readonly ClaimSpec[], findings: readonly Finding[]): Finding[] {
  return findings.filter((finding) => {
    if (!claims.some((claim) => claim.requires.some((requirement) => answers(requirement, finding)))) return false;
    return !isOnRecord(shop, finding);
  });
}

/** What a finding was drawn from. */
type Drawn = Pick<Finding, "subject" | "quantity" | "calculation" | "version" | "from">;

/** Whether the same was drawn before, from the same evidence, by the same version. */
export function isOnRecord(shop: Shop, finding: Drawn): boolean {
  const { subject, quantity } = finding;
  const known =
    subject.valve === undefined
      ? shop.ledger.figures("unit", subject.unit!, quantity)
      : shop.ledger.figures("valve", subject.valve, quantity);
  return known.some(({ body }) => body.kind === "finding" && isSame(body, finding));
}

function answers(requirement: Requirement, { quantity, subject }: Finding): boolean {
  return (
    requirement.quantity === quantity &&
    requirement.section === subject.section &&
    requirement.channel === subject.channel &&
    requirement.point === subject.point
  );
}

function isSame(known: BodyOf<"finding">, fresh: Drawn): boolean {
  const keys = ["valve", "unit", "section", "channel", "point"] as const;
  return (
    known.calculation === fresh.calculation &&
    known.version === fresh.version &&
    keys.every((key) => known.subject[key] === fresh.subject[key]) &&
    known.from.length === fresh.from.length &&
    known.from.every((id, index) => id === fresh.from[index])
  );
}

/** Of the reference valve's readings, those that the correction leaned on: the last before, and the first after, each reading. */
function nearest(
  readings: readonly Evidence<"valve-reading">[],
  reference: readonly Evidence<"reference-reading">[],
): string[] {
  const ids = new Set<string>();
  for (const { body } of readings) {
    const after = reference.findIndex((entry) => entry.body.time_h >= body.time_h);
    const pair = after < 0 ? [reference.at(-1)] : [reference[after - 1], reference[after]];
    for (const entry of pair) if (entry) ids.add(entry.id);
  }
  return [...ids];
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
