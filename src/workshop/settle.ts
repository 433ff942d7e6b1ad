import type { ClaimSpec, Evidence, Model, Submission } from "../claims/evidence.ts";
import type { Shop, UnitState } from "../claims/index.ts";
import { type BenchNeed, benchFindings } from "./bench/findings.ts";
import { benchQuestion } from "./bench/question.ts";
import type { Calculate } from "./calculate.ts";
import { fairnessOf, partByFairness } from "./fairness.ts";
import { type Finding, humMargin, isOnRecord, missingFindings, toneFindings, valveFindings } from "./findings.ts";
import { isOffsetSupply } from "./humHearing.ts";
import type { Shelf } from "./keptAnswers.ts";
import { caseFinding, panelsAtRisk } from "./timber/caseFinding.ts";
import type { CaseView } from "./timber/views.ts";
import type { TypeReadings, ValveVerdict } from "./valveTable.ts";
import type { HumHearingView } from "./views.ts";

export interface SettleCase {
  readonly shop: Shop;
  hearing(unit: string): Promise<HumHearingView>;
  /** The panels of a unit's case, judged. */
  panelsOf(unit: string): Promise<CaseView["panels"]>;
  /** Where what a unit lacks is kept for as long as nothing was written that bears on it. */
  readonly facts: Shelf;
  /** Findings of the valves of each tray of a type that claims ask for and nobody wrote yet. */
  missingOfType(type: string, claims: readonly ClaimSpec[]): Promise<readonly Finding[]>;
  readonly calculate: Calculate;
}

type Recording = Evidence<"recording">;

/**
 * Every finding that the evidence allows, that a claim asks for, and that is not on record yet.
 *
 * A finding is dated by the newest evidence it was drawn from, so that a later rework voids it with its source.
 */
export async function settleFindings(settling: SettleCase): Promise<Submission[]> {
  const { shop } = settling;
  const written: Submission[] = [];
  const write = (missing: readonly Finding[]) => {
    for (const finding of missing) {
      const at = newest(finding.from.map((id) => shop.ledger.get(id)!.at));
      written.push({ at, by: "stillglow", kind: "finding", ...finding });
    }
  };
  const cameBack = new Set(shop.returns.map(({ body }) => body.unit));
  const open = [...shop.units.values()].flatMap(({ unit }) => {
    const isHere = !shop.isReleased(unit) || (cameBack.has(unit) && shop.cameBackAfter(unit) !== undefined);
    const model = isHere ? shop.modelOf(unit) : undefined;
    return model ? [{ unit, model }] : [];
  });
  for (const missing of await Promise.all(open.map(({ unit }) => missingOfUnit(settling, unit)))) write(missing);

  const models = new Set(open.map(({ model }) => model));
  const claims = [...models].flatMap((model) => model.claims);
  const types = new Set([...models].flatMap((model) => model.positions.map(({ type }) => type)));
  for (const type of types) write(await settling.missingOfType(type, claims));
  return written;
}

/** Of findings to be written, those that nobody wrote meanwhile. */
export function stillMissing(shop: Shop, findings: readonly Submission[]): readonly Submission[] {
  return findings.filter((finding) => finding.kind === "finding" && !isOnRecord(shop, finding));
}

/** Findings from a unit's recordings and its case that its claims ask for and nobody wrote yet. */
function missingOfUnit(settling: SettleCase, name: string): Promise<readonly Finding[]> {
  return settling.facts.keep(`missing of ${name}`, async () => {
    const { shop } = settling;
    const [unit, model] = [shop.unit(name)!, shop.modelOf(name)!];
    const found = [...(await fromRecordings(settling, model, unit)), ...(await fromCase(settling, model, unit))];
    return missingFindings(shop, model.claims, found);
  });
}

/** A case already reckoned by hand since it was joined is not reckoned again. */
async function fromCase({ shop, panelsOf }: SettleCase, model: Model, { unit }: UnitState): Promise<Finding[]> {
  const asks = model.claims.some((claim) => claim.requires.some(({ quantity }) => quantity === panelsAtRisk));
  const joined = asks ? shop.timber.caseOfUnit(unit)?.joined : undefined;
  if (!joined) return [];
  const reckoned = shop.ledger.figures("unit", unit, panelsAtRisk).findLast(({ body }) => body.kind === "reading");
  if (reckoned && Date.parse(reckoned.at) >= Date.parse(joined.at)) return [];
  const finding = caseFinding(shop, { unit, panels: await panelsOf(unit) });
  return finding ? [finding] : [];
}

async function fromRecordings(
  { shop, hearing, calculate }: SettleCase,
  model: Model,
  { unit, fitted }: UnitState,
): Promise<Finding[]> {
  const asks = (quantity: string) =>
    model.claims.some((claim) => claim.requires.some((needed) => needed.quantity === quantity));
  const recordings = shop.ledger
    .about("recording", unit)
    .filter(({ id }) => shop.ledger.supersederOf(id) === undefined);
  const found: Finding[] = [];
  const hum = asks("hum_margin_dB") ? recordings.filter(({ body }) => body.purpose === "hum") : [];
  const supplies = await fairnessOf({ ledger: shop.ledger, unit, recordings: hum, calculate });
  const humRecording = bestForHum(partByFairness(hum, supplies).believed, fitted);
  if (humRecording) {
    const heard = await hearing(unit);
    for (const channel of model.channels.filter((name) => humRecording.body.channels.includes(name))) {
      const hidden_dB = await hiddenMargin(humRecording, channel, heard, model.outputImpedance_ohm, calculate);
      const margin = humMargin(heard, humRecording, channel, hidden_dB);
      if (margin) found.push(margin);
    }
  }
  if (asks("balance_dB") || asks("thd_pct")) {
    for (const recording of recordings.filter(({ body }) => body.purpose === "tone")) {
      const { channels } = await calculate<{ channels: Parameters<typeof toneFindings>[1] }>("bench.tone", {
        recording: recording.body.file_sha256,
        fullScale_Vpk: recording.body.fullScale_Vpk,
        channels: recording.body.channels,
      });
      found.push(...toneFindings(recording, channels));
    }
  }
  const needs: readonly BenchNeed[] = model.claims.flatMap((claim) => claim.requires);
  for (const recording of recordings.filter(({ body }) => body.purpose !== "hum")) {
    const recorder = shop.recorderCalibrations.get(recording.body.instrument)?.body.channels;
    const question = benchQuestion(recording.body, recorder);
    const drawn = question && benchFindings(recording, question.calculation, needs, shop.recorderCalibrations);
    if (question && drawn) found.push(...drawn(await calculate(question.calculation, question.input)));
  }
  return found;
}

/** The newest recording on a clean offset supply with the valves that stand there now; without one, on any supply. */
function bestForHum(recordings: readonly Recording[], fitted: UnitState["fitted"]): Recording | undefined {
  const asItStands = recordings.filter(
    ({ body }) =>
      body.purpose === "hum" && Object.entries(fitted).every(([position, valve]) => body.valves[position] === valve),
  );
  return asItStands.findLast(isOffsetSupply) ?? asItStands.at(-1);
}

/**
 * The margin of a line that could just hide in the floor at twice the supply's frequency or at the supply's own:
 * three times √(S/T), with the hiss density S and the record's length T.
 */
async function hiddenMargin(
  recording: Recording,
  channel: string,
  hearing: HumHearingView,
  outputImpedance_ohm: number,
  calculate: Calculate,
): Promise<number | undefined> {
  const duration_s = hearing.recordings.find((known) => known.recording === recording.body.recording)?.duration_s;
  if (duration_s === undefined) return undefined;
  const noise = await calculate<{
    channels: Record<string, { hissDensity: { frequency_Hz: number; V_per_rtHz: number }[] }>;
  }>("bench.noise", {
    recording: recording.body.file_sha256,
    fullScale_Vpk: recording.body.fullScale_Vpk,
    channels: recording.body.channels,
    building_Hz: recording.body.building_Hz,
  });
  const density = noise.channels[channel]?.hissDensity ?? [];
  if (density.length === 0) return undefined;
  const lines = [1, 2, 3, 4, 5, 6].map((order) => {
    const frequency_Hz = order * recording.body.supply.frequency_Hz;
    const nearest = density.toSorted(
      (a, b) => Math.abs(Math.log(a.frequency_Hz / frequency_Hz)) - Math.abs(Math.log(b.frequency_Hz / frequency_Hz)),
    )[0]!;
    return { frequency_Hz, level_Vrms: (3 * nearest.V_per_rtHz) / Math.sqrt(duration_s) };
  });
  const margins = await Promise.all(
    hearing.headphones.map(({ impedance_ohm, sensitivity_dB_per_V }) =>
      calculate<{ lines: { margin_dB: number }[] }>("hum.audible", {
        lines,
        outputImpedance_ohm,
        headphone: { impedance_ohm, sensitivity_dB_per_V },
      }),
    ),
  );
  return Math.max(...margins.flatMap(({ lines: heard }) => heard.map(({ margin_dB }) => margin_dB)));
}

/** Valves on the shelf are judged too: a unit may want one tomorrow, and then its proof is there already. */
export function fromValves(readings: TypeReadings, verdicts: readonly ValveVerdict[]): Finding[] {
  return verdicts.flatMap((verdict) => {
    const taken = (readings.byValve.get(verdict.id) ?? []).filter(({ body }) => body.phase !== "curve");
    return valveFindings(verdict, taken, readings.reference, readings.limits.reading_doubt_pct);
  });
}

function newest(instants: readonly string[]): string {
  return instants.reduce((latest, at) => (Date.parse(at) > Date.parse(latest) ? at : latest));
}
