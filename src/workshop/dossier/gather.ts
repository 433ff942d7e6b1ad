import type { Evidence, Model } from "../../claims/evidence.ts";
import { instrumentStanding, type Shop, type UnitState } from "../../claims/index.ts";
import { releaseStanding } from "../../claims/release.ts";
import type { Dossier, DossierPanel, Instrument, RatingPlate } from "../../dossier/dossier.ts";
import { caseDrawing } from "../../dossier/drawings/caseYear.ts";
import type { Drawing } from "../../dossier/drawings/drawing.ts";
import { humDrawing } from "../../dossier/drawings/humLines.ts";
import { responseDrawing } from "../../dossier/drawings/response.ts";
import { spectrumDrawing } from "../../dossier/drawings/spectrum.ts";
import type { BenchSheetView } from "../bench/views.ts";
import type { CaseView } from "../timber/views.ts";
import { version } from "../version.ts";
import type { HumHearingView, SpectrumView, UnitView } from "../views.ts";

export interface DossierAsked {
  readonly title: string;
  readonly shop: Shop;
  readonly model: Model;
  readonly state: UnitState;
  readonly evidence: readonly Evidence[];
  readonly head_sha256: string;
  readonly unit: UnitView;
  readonly hum: HumHearingView;
  readonly bench: BenchSheetView;
  readonly case: CaseView;
  spectrum(recording: string, channel: string): SpectrumView;
}

/** Lines of the hum that are drawn: the strongest. */
const mostLines = 8;

/** Everything that stands in a unit's printed record, drawn together from what the workshop knows of it. */
export function gatherDossier(asked: DossierAsked): Dossier {
  const { shop, model, state, evidence, unit } = asked;
  const standing = releaseStanding(model, shop.ledger, state.unit);
  const balance = asked.bench.balance?.rounds.at(-1)?.byPosition;
  return {
    shop: asked.title,
    unit: unit.unit,
    model: unit.model,
    title: capital(model.title.replace(`${unit.model}, `, "")),
    revision: unit.revision,
    order: unit.order,
    destination: unit.destination,
    plate: ratingPlate(asked),
    ...(standing.released && {
      release: {
        at: standing.release.at,
        by: standing.release.by,
        version: standing.release.body.version,
        resting_sha256: standing.release.body.resting_sha256,
        entry: standing.release.id,
      },
    }),
    missing: unit.release.missing.map(({ title }) => title),
    valves: Object.entries(unit.fitted).map(([position, { valve, type, verdict, reasons }]) => {
      const known = shop.valves.get(valve);
      return {
        position,
        type,
        valve,
        ...(known && { batch: known.batch, seller: known.seller }),
        ...(verdict !== undefined && { verdict }),
        reasons,
      };
    }),
    panels: asked.case.panels.map(
      (panel): DossierPanel => ({
        panel: panel.panel,
        piece: panel.piece,
        species: panel.species,
        ...(panel.moisture_pct !== undefined && { moisture_pct: panel.moisture_pct }),
        ...(panel.moistureDoubt_pct !== undefined && { moistureDoubt_pct: panel.moistureDoubt_pct }),
        ...(panel.clearance_mm !== undefined && { clearance_mm: panel.clearance_mm }),
        remedy: panel.remedy,
      }),
    ),
    claims: unit.claims.map(({ check, ...claim }) => ({ ...claim, how: check.how })),
    drawings: drawings(asked),
    ...(asked.bench.balance && balance && { balance: { words: asked.bench.balance.words, rows: balance } }),
    instruments: instrumentsOf(shop, unit),
    concessions: shop.ledger.about("concession", unit.unit).map(({ at, by, body }) => ({
      title: model.claims.find(({ claim }) => claim === body.claim)?.title ?? body.claim,
      reason: body.reason,
      by,
      at,
    })),
    history: unit.history.toReversed().map(({ id, at, by, words }) => ({ id, at, by, words })),
    cautions: unit.cautions,
    asOf: evidence.at(-1)?.recordedAt ?? state.openedAt,
    head_sha256: asked.head_sha256,
    version,
  };
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

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

function drawings({ hum, bench, case: housed, unit, model, spectrum }: DossierAsked): Drawing[] {
  const swept = bench.recordings.find(({ curves }) => curves.length > 0);
  const response = swept && responseDrawing(swept.curves, `the sweep ${swept.recording}`);
  const quietest = hum.recordings.at(-1);
  const spectra = quietest
    ? model.channels.flatMap((channel) => {
        const columns = spectrum(quietest.recording, channel);
        return spectrumDrawing(columns, `noise-${channel}`, `Noise, ${channel} channel`) ?? [];
      })
    : [];
  const lines = hum.lines
    .filter(({ recording }) => recording === quietest?.recording)
    .toSorted((a, b) => b.level_Vrms - a.level_Vrms)
    .slice(0, mostLines)
    .toSorted((a, b) => a.frequency_Hz - b.frequency_Hz)
    .map(({ frequency_Hz, channel, level_Vrms, causes, heardOn }) => ({
      frequency_Hz,
      channel,
      level_Vrms,
      causes: causes.map(({ cause, position, share }) => ({
        words: position === undefined ? cause : `${cause} ${position}`,
        share,
      })),
      heard: heardOn.filter(({ audible }) => audible === "yes").map(({ headphone }) => headphone),
    }));
  const panels = housed.panels.flatMap(({ panel, year, gap_mm }) => (year ? [{ panel, room_mm: gap_mm, year }] : []));
  return [
    response,
    ...spectra,
    humDrawing(lines),
    caseDrawing(panels, housed.destination ?? unit.destination.place),
  ].filter((one) => one !== undefined);
}

/** Instruments that some counting figure names, each with its last trial. */
function instrumentsOf(shop: Shop, unit: UnitView): Instrument[] {
  const named = new Set(
    unit.claims.flatMap(({ figures }) => figures.flatMap(({ instrument }) => instrument?.split(", ") ?? [])),
  );
  return [...named].toSorted().map((instrument) => ({
    instrument,
    title: shop.instruments.get(instrument)?.body.title ?? "not on record",
    trial: instrumentStanding(shop.ledger, instrument).words,
  }));
}
