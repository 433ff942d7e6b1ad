import type { Evidence, Model } from "../../claims/evidence.ts";
import { instrumentStanding, type Shop, type UnitState } from "../../claims/index.ts";
import { releaseStanding } from "../../claims/release.ts";
import type {
  Dossier,
  DossierClaim,
  DossierPanel,
  DossierValve,
  Instrument,
  RatingPlate,
} from "../../dossier/dossier.ts";
import type { DossierLanguage } from "../../dossier/languages/dossierWords.ts";
import type { BenchSheetView } from "../bench/views.ts";
import type { CaseView } from "../timber/views.ts";
import type { ValveVerdict } from "../valveTable.ts";
import { version } from "../version.ts";
import type { HumHearingView, SpectrumView, UnitView } from "../views.ts";
import { entriesAbout } from "./entries.ts";

export interface DossierAsked {
  readonly title: string;
  readonly shop: Shop;
  readonly model: Model;
  readonly state: UnitState;
  /** Entries that name the unit. */
  readonly evidence: readonly Evidence[];
  /** When the newest of the whole record was written down. */
  readonly asOf: string;
  readonly head_sha256: string;
  readonly unit: UnitView;
  readonly hum: HumHearingView;
  readonly bench: BenchSheetView;
  readonly case: CaseView;
  /** Of each valve around its heat run. */
  readonly verdicts: ReadonlyMap<string, ValveVerdict>;
  readonly language: DossierLanguage;
  spectrum(recording: string, channel: string): Promise<SpectrumView>;
}

/** Lines of the hum that are drawn: the strongest. */
const mostLines = 8;

/** Everything that stands in a unit's printed record, drawn together from what the workshop knows of it. */
export async function gatherDossier(asked: DossierAsked): Promise<Dossier> {
  const { shop, model, state, evidence, unit, language } = asked;
  const standing = releaseStanding(model, shop.ledger, state.unit);
  const balance = asked.bench.balance?.rounds.at(-1)?.byPosition;
  const claims = claimsOf(asked);
  const titles = new Map(claims.map(({ claim, title }) => [claim, title]));
  const history = entriesAbout(evidence, state.unit);
  return {
    shop: asked.title,
    unit: unit.unit,
    model: unit.model,
    title: capital((model.told?.[language]?.title ?? model.title).replace(`${unit.model}, `, "")),
    revision: unit.revision,
    order: unit.order,
    destination: unit.destination,
    plate: ratingPlate(asked),
    tap: state.tap,
    ...(standing.released && {
      release: {
        at: standing.release.at,
        by: standing.release.by,
        version: standing.release.body.version,
        resting_sha256: standing.release.body.resting_sha256,
        entry: standing.release.id,
      },
    }),
    missing: unit.release.missing.map(({ claim, title }) => titles.get(claim) ?? title),
    valves: Object.entries(unit.fitted).map(([position, { valve, type }]) =>
      valveOf({ position, valve, type }, shop, asked.verdicts.get(valve)),
    ),
    steps: history.flatMap(({ id, at, by, entry }) =>
      entry.kind === "step" ? [{ step: entry.step, by, at, entry: id }] : [],
    ),
    stepsBefore: evidence.flatMap(({ body }) => (body.kind === "unit" && body.unit === state.unit ? body.built : [])),
    panels: asked.case.panels.map(
      (panel): DossierPanel => ({
        panel: panel.panel,
        piece: panel.piece,
        species: panel.species,
        ...(panel.moisture_pct !== undefined && { moisture_pct: panel.moisture_pct }),
        ...(panel.moistureDoubt_pct !== undefined && { moistureDoubt_pct: panel.moistureDoubt_pct }),
        ...(panel.clearance_mm !== undefined && { clearance_mm: panel.clearance_mm }),
        verdict: panel.verdict,
      }),
    ),
    coats: asked.case.coats.map(({ at, finish, product }) => ({ at, coat: product ?? finish })),
    claims,
    pictures: await picturesOf(asked),
    ...(asked.bench.balance && balance && { balance: { cause: asked.bench.balance.cause, rows: balance } }),
    instruments: instrumentsOf(shop, unit),
    concessions: shop.ledger.about("concession", unit.unit).map(({ at, by, body }) => ({
      title: titles.get(body.claim) ?? body.claim,
      reason: body.reason,
      by,
      at,
    })),
    history,
    dangers: [...new Set(unit.claims.flatMap(({ check: { danger } }) => (isDanger(danger) ? [danger] : [])))],
    asOf: asked.asOf,
    head_sha256: asked.head_sha256,
    version,
  };
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const isDanger = (word: string): word is Dossier["dangers"][number] => word !== "none";

/** Claims in the language of the record where the model says them so, each figure with what read or drew it. */
function claimsOf({ unit, model, shop, language }: DossierAsked): DossierClaim[] {
  const concessions = shop.ledger.about("concession", unit.unit);
  return unit.claims.map(({ check, ...claim }) => {
    const told = model.claims.find((one) => one.claim === claim.claim)?.told?.[language];
    const conceded = concessions.findLast(({ body }) => body.claim === claim.claim);
    return {
      ...claim,
      title: told?.title ?? claim.title,
      how: told?.how ?? check.how,
      ...(claim.state === "conceded" && conceded && { concession: { at: conceded.at, reason: conceded.body.reason } }),
    };
  });
}

function valveOf(
  fitted: Pick<DossierValve, "position" | "valve" | "type">,
  shop: Shop,
  verdict: ValveVerdict | undefined,
): DossierValve {
  const known = shop.valve(fitted.valve);
  return {
    ...fitted,
    ...(known && { batch: known.batch, seller: known.seller }),
    ...(verdict && { verdict: verdict.verdict }),
    sections: (verdict?.sections ?? []).map(({ name, cold_mA, hot_mA, drift_pct, doubt_pct }) => ({
      section: name,
      ...(cold_mA !== undefined && { cold_mA }),
      ...(hot_mA !== undefined && { hot_mA }),
      ...(drift_pct !== undefined && { drift_pct }),
      ...(doubt_pct !== undefined && { doubt_pct }),
    })),
    ...(verdict?.sectionSpread_pct !== undefined && { sectionSpread_pct: verdict.sectionSpread_pct }),
    ...(verdict?.doubt !== undefined && { sectionSpreadDoubt_pct: verdict.doubt.sectionSpread_pct }),
  };
}

/** Ratings by the newest reading that tells them, of its own or beside the reading of the fuse. */
function ratingPlate({ state, shop, unit, evidence }: DossierAsked): RatingPlate {
  const readings = evidence
    .flatMap(({ id, body }) => (body.kind === "reading" && body.subject.unit === state.unit ? [{ id, body }] : []))
    .filter(({ id }) => shop.ledger.supersederOf(id) === undefined)
    .toReversed();
  const told = (quantity: string): number | string | undefined => {
    for (const { body } of readings) {
      if (body.quantity === quantity) return body.value;
      const beside = body.conditions[quantity];
      if (beside !== undefined) return beside;
    }
    return undefined;
  };
  const mains_W = told("mains_W");
  const fuse_A = told("fuse_A");
  const fuseKind = told("fuseKind");
  return {
    model: unit.model,
    unit: state.unit,
    nominal_V: unit.destination.nominal_V,
    frequency_Hz: unit.destination.frequency_Hz,
    ...(typeof mains_W === "number" && { mains_W }),
    ...(typeof fuse_A === "number" && { fuse_A }),
    ...(typeof fuseKind === "string" && { fuseKind }),
  };
}

async function picturesOf({
  hum,
  bench,
  case: housed,
  unit,
  model,
  spectrum,
}: DossierAsked): Promise<Dossier["pictures"]> {
  const swept = bench.recordings.find(({ curves }) => curves.length > 0);
  const quietest = hum.recordings.at(-1);
  return {
    ...(swept && { response: { curves: swept.curves, recording: swept.recording } }),
    spectra: quietest ? await Promise.all(model.channels.map((channel) => spectrum(quietest.recording, channel))) : [],
    hum: hum.lines
      .filter(({ recording }) => recording === quietest?.recording)
      .toSorted((a, b) => b.level_Vrms - a.level_Vrms)
      .slice(0, mostLines)
      .toSorted((a, b) => a.frequency_Hz - b.frequency_Hz)
      .map(({ frequency_Hz, channel, level_Vrms, causes, heardOn }) => ({
        frequency_Hz,
        channel,
        level_Vrms,
        causes: causes.map(({ cause, position, share }) => ({
          cause,
          ...(position !== undefined && { position }),
          share,
        })),
        heard: heardOn.filter(({ audible }) => audible === "yes").map(({ headphone }) => headphone),
      })),
    panels: housed.panels.flatMap(({ panel, year, gap_mm }) => (year ? [{ panel, room_mm: gap_mm, year }] : [])),
    casePlace: housed.destination ?? unit.destination.place,
  };
}

/** Instruments that some counting figure names, each with its last trial. */
function instrumentsOf(shop: Shop, unit: UnitView): Instrument[] {
  const named = new Set(
    unit.claims.flatMap(({ figures }) => figures.flatMap(({ instrument }) => instrument?.split(", ") ?? [])),
  );
  return [...named].toSorted().map((instrument): Instrument => {
    const definition = shop.instruments.get(instrument)?.body;
    const trial = shop.ledger
      .about("trial", instrument)
      .findLast(({ id }) => shop.ledger.supersederOf(id) === undefined);
    return {
      instrument,
      ...(definition && { title: definition.title }),
      standing: instrumentStanding(shop.ledger, instrument).state,
      ...(trial && {
        trial: {
          at: trial.at,
          reference: definition?.trial.reference ?? "",
          quantity: definition?.trial.quantity ?? "",
          value: trial.body.value,
          doubt: trial.body.doubt,
        },
      }),
    };
  });
}
