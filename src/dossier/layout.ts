import type { Block, Layout } from "./block.ts";
import type { Dossier, DossierClaim, DossierFigure, RatingPlate } from "./dossier.ts";
import { caseDrawing } from "./drawings/caseYear.ts";
import { ink, svg } from "./drawings/drawing.ts";
import { humDrawing } from "./drawings/humLines.ts";
import { responseDrawing } from "./drawings/response.ts";
import { spectrumDrawing } from "./drawings/spectrum.ts";
import { dataMatrix } from "./labels.ts";
import type { DossierLanguage } from "./languages/dossierWords.ts";
import { type Sayer, sayerOf } from "./languages/sayer.ts";
import { whole } from "./languages/whole.ts";
import { builtFrom, instruments } from "./layout/built.ts";
import { cautions, checking, history, signatures } from "./layout/history.ts";

/** Puts a dossier into the words and order of a language; whoever prints it only sets it. */
export function layOut(dossier: Dossier, language: DossierLanguage = "en"): Layout {
  const say = sayerOf(language);
  const { words } = say;
  const { unit, model, title, revision, shop, release, asOf, head_sha256 } = dossier;
  return {
    language,
    title: `${model} ${unit}`,
    shop,
    subtitle: [
      words.revision(say.trade(title), revision),
      release ? words.releasedOn(say.longDate(release.at), say.trade(release.by)) : words.notReleased,
    ].join(" "),
    plate: plateLines(dossier.plate, say),
    front: frontOf(dossier, say),
    record: [
      ...proofs(dossier, say),
      { title: words.pictures, blocks: pictures(dossier, say) },
      { title: words.builtFrom, blocks: builtFrom(dossier, say) },
      { title: words.instruments.title, blocks: instruments(dossier, say) },
      { title: words.history.title, blocks: history(dossier, say) },
      { title: words.cautions.title, blocks: cautions(dossier, say) },
      { title: words.signatures.title, blocks: signatures(dossier, say) },
      { title: words.checking.title, blocks: checking(dossier, say) },
    ].filter(({ blocks }) => blocks.length > 0),
    mark: { svg: markOf(unit), alt: words.mark(unit) },
    foot: words.foot(shop, unit, head_sha256.slice(0, 16)),
    pageOf: words.pageOf,
    asOf,
  };
}

/** The bare number as a DataMatrix, as on the unit's own label. */
function markOf(unit: string): string {
  const { path, size } = dataMatrix(unit);
  return svg(size, size, [`<path fill="${ink}" d="${path}"/>`]);
}

/** Lines of the rating plate; a rating that no reading told is a rule to write on. */
export function plateLines(plate: RatingPlate, { words, plain }: Sayer): string[] {
  const { model, unit, nominal_V, frequency_Hz, mains_W, fuse_A, fuseKind } = plate;
  const blank = "____";
  return [
    `${model}  ${words.plate.number} ${unit}`,
    `${plain(nominal_V)} V~  ${plain(frequency_Hz)} Hz`,
    `${mains_W === undefined ? blank : plain(mains_W)} W`,
    `${words.plate.fuse} ${fuse_A === undefined ? blank : `${fuseKind ?? ""}${plain(fuse_A)} A`}`,
  ];
}

/** The one picture in front is drawn low, so that all else finds room on the page. */
const frontHeight = 116;

function frontOf(dossier: Dossier, say: Sayer): Block[] {
  const { destination, missing, release, claims } = dossier;
  const { words, plain, trade } = say;
  const { response, spectra, panels, casePlace } = dossier.pictures;
  const curve =
    (response && responseDrawing(response.curves, response.recording, say, frontHeight)) ??
    (spectra[0] && spectrumDrawing(spectra[0], "front-noise", say, frontHeight)) ??
    caseDrawing(panels, casePlace, say, frontHeight);
  return [
    ...(release
      ? []
      : [
          {
            kind: "words" as const,
            tone: "stop" as const,
            text: words.missing(missing.length, missing.map(trade).join("; ")),
          },
        ]),
    {
      kind: "words",
      tone: "plain",
      text: words.builtFor(destination.place, plain(destination.nominal_V), plain(destination.frequency_Hz)),
    },
    { kind: "heading", text: release ? words.whatWasProven : words.provenSoFar },
    {
      kind: "table",
      title: words.nearest,
      head: ["", words.measured, words.allowed, ""],
      right: [false, true, true, false],
      rows: Object.keys(words.sheets).flatMap((sheet) =>
        frontRow(
          sheet,
          claims.filter((claim) => claim.sheet === sheet),
          say,
        ),
      ),
    },
    ...(curve ? [{ kind: "drawing" as const, drawing: { ...curve, id: "front-curve" } }] : []),
    { kind: "heading", text: words.valves },
    {
      kind: "facts",
      rows: dossier.valves.map(({ position, type, valve }): [string, string] => [position, words.valve(type, valve)]),
    },
    { kind: "heading", text: words.beforeOpening },
    { kind: "cautions", rows: words.forItsOwner },
    ...(release ? [{ kind: "lines" as const, rows: [words.forTheWorkshop] }] : []),
  ];
}

/** A figure and where it was read; of the whole unit goes without saying. */
function placed({ quantity, where }: DossierFigure, say: Sayer): string {
  const name = say.quantity(quantity);
  return where === "" || where.startsWith("unit ") ? name : `${name}, ${placeInWords(where, say)}`;
}

/** `V2 section b (T-117)`, `left channel` or the name of a test point, as the record's language says it. */
function placeInWords(where: string, { words, trade }: Sayer): string {
  const channel = /^(\w+) channel$/.exec(where)?.[1];
  if (channel !== undefined) return words.where.channel(words.channels[channel] ?? channel);
  const both = /^(\w+) channel (.+)$/.exec(where);
  if (both)
    return `${words.where.channel(words.channels[both[1]!] ?? both[1]!)}, ${trade(both[2]!).replaceAll(/(?<=\d) (?=k?Hz)/g, "\u00a0")}`;
  return trade(where).replaceAll(/(?<=\d) (?=k?Hz)/g, "\u00a0");
}

/** How near a figure lies to the limit it must keep, its doubt taken off: 1 in the middle of its room, 0 at the edge. */
function roomLeft({ value, doubt = 0, low, high }: DossierFigure): number {
  if (value === undefined) return Number.NEGATIVE_INFINITY;
  const toHigh = high === undefined ? Number.POSITIVE_INFINITY : high - value - doubt;
  const toLow = low === undefined ? Number.POSITIVE_INFINITY : value - doubt - low;
  const scale = low !== undefined && high !== undefined ? (high - low) / 2 : Math.abs(high ?? low ?? 1);
  return Math.min(toHigh, toLow) / (scale || 1);
}

function frontRow(sheet: string, claims: readonly DossierClaim[], say: Sayer): string[][] {
  const { words } = say;
  const figures = claims.flatMap(({ figures: all }) => all);
  if (figures.length === 0) return [];
  // A count of none, or a label read aloud, is met or not; how near a measured figure came says more.
  const measured = figures.filter(({ doubt }) => doubt !== undefined && doubt > 0);
  const tightest = (measured.length > 0 ? measured : figures).reduce((least, one) =>
    roomLeft(one) < roomLeft(least) ? one : least,
  );
  const states = new Set(claims.map(({ state }) => state));
  const closed = claims.every(({ state }) => state === "proven" || state === "conceded");
  const stands = closed
    ? states.has("conceded")
      ? words.concededInWriting
      : words.provenFigures(figures.length)
    : words.notProven;
  const title = words.sheets[sheet] ?? sheet;
  const what = placed(tightest, say);
  const lower = say.language === "de" ? what : `${what.charAt(0).toLowerCase()}${what.slice(1)}`;
  const named = what.startsWith(title) ? what : `${title}: ${lower}`;
  return [[named, say.figure(tightest), say.limit(tightest), stands]];
}

function proofs({ claims }: Dossier, say: Sayer): Layout["record"] {
  const { words } = say;
  return Object.entries(words.sheets).flatMap(([sheet, title]) => {
    const here = claims.filter((claim) => claim.sheet === sheet);
    if (here.length === 0) return [];
    return [
      {
        title: words.proofs(title),
        blocks: here.flatMap((claim): Block[] => [
          { kind: "heading", text: say.trade(claim.title), state: claim.state, stands: words.states[claim.state] },
          {
            kind: "words",
            tone: claim.state === "refuted" ? "stop" : "quiet",
            text: [why(claim, say), claim.safety ? words.safetyProof : "", words.howChecked(say.trade(claim.how))]
              .filter(Boolean)
              .join(" "),
          },
          {
            kind: "table",
            title: say.trade(claim.title),
            head: words.figureHead,
            right: [false, true, true, false, false, false, false],
            rows: claim.figures.map((figure) => [
              placed(figure, say),
              say.figure(figure),
              say.limit(figure),
              words.states[figure.state],
              [
                figure.instrument && whole(figure.instrument),
                figure.calculation && words.computedBy(figure.calculation),
              ]
                .filter(Boolean)
                .join(", "),
              figure.at === undefined ? "" : say.shortDate(figure.at),
              figure.evidence ?? "",
            ]),
          },
        ]),
      },
    ];
  });
}

/** Why a claim stands as it does; what the ledger wrote in its own language is quoted where it tells more. */
function why(
  { state, because, figures, concession }: DossierClaim,
  { language, words, longDate, inWords }: Sayer,
): string {
  if (state === "proven") return words.allInside(figures.length);
  if (state === "conceded") {
    return concession === undefined ? inWords(because) : words.concededOn(longDate(concession.at), concession.reason);
  }
  const ledger = words.ledgerSays(inWords(because));
  return language === "en" ? ledger : `${words.stands[state]} ${ledger}`;
}

function pictures({ pictures: drawn, balance }: Dossier, say: Sayer): Block[] {
  const { words, digits, withDoubt } = say;
  const { response, spectra, hum, panels, casePlace } = drawn;
  const drawings = [
    response && responseDrawing(response.curves, response.recording, say),
    ...spectra.map((columns) => spectrumDrawing(columns, `noise-${columns.channel}`, say)),
    humDrawing(hum, say),
    caseDrawing(panels, casePlace, say),
  ].filter((one) => one !== undefined);
  const blocks: Block[] = drawings.map((drawing) => ({ kind: "drawing", drawing }));
  if (balance === undefined) return blocks;
  const all = balance.rows.map(({ difference_dB }) => difference_dB);
  const spread = words.balance.spread(digits((Math.max(...all) - Math.min(...all)).toFixed(2)));
  return [
    ...blocks,
    { kind: "heading", text: words.balance.title },
    {
      kind: "words",
      tone: "quiet",
      text: `${words.balance.causes[balance.cause]} ${all.length > 1 ? spread : ""}`.trim(),
    },
    {
      kind: "table",
      title: words.balance.table,
      head: words.balance.head,
      right: [false, true],
      rows: balance.rows.map(({ position, difference_dB, doubt_dB }) => [
        position,
        `${withDoubt(difference_dB, doubt_dB)}\u00a0dB`,
      ]),
    },
  ];
}
