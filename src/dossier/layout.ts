import type { Dossier, DossierClaim, DossierFigure, FigureState, RatingPlate } from "./dossier.ts";
import type { Drawing } from "./drawings/drawing.ts";
import {
  figureWords,
  inWords,
  limitWords,
  longDate,
  plain,
  quantityName,
  sheetTitles,
  shortDate,
  withDoubt,
} from "./words.ts";

/** What stands on paper and on the page alike, in the order it is read. */
export type Block =
  | { readonly kind: "words"; readonly text: string; readonly tone: "plain" | "quiet" | "caution" | "stop" }
  | { readonly kind: "heading"; readonly text: string; readonly state?: FigureState }
  | { readonly kind: "facts"; readonly rows: readonly (readonly [string, string])[] }
  | {
      readonly kind: "table";
      readonly title: string;
      readonly head: readonly string[];
      /** Columns of figures stand to the right. */
      readonly right: readonly boolean[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: "drawing"; readonly drawing: Drawing };

export interface Layout {
  readonly title: string;
  readonly shop: string;
  readonly subtitle: string;
  readonly plate: readonly string[];
  /** The page in front, for the customer. */
  readonly front: readonly Block[];
  /** The full record behind it, sheet by sheet. */
  readonly record: readonly { readonly title: string; readonly blocks: readonly Block[] }[];
  readonly foot: string;
  readonly asOf: string;
}

/** Puts a dossier into words and order; whoever prints it only sets it. */
export function layOut(dossier: Dossier): Layout {
  const { unit, model, title, revision, shop, asOf, head_sha256 } = dossier;
  return {
    title: `${model} ${unit}`,
    shop,
    subtitle: [
      `${title}, revision ${revision}.`,
      dossier.release ? `Released ${longDate(dossier.release.at)} by ${dossier.release.by}.` : "Not released.",
    ].join(" "),
    plate: plateLines(dossier.plate),
    front: frontOf(dossier),
    record: [
      ...proofs(dossier),
      { title: "Pictures", blocks: pictures(dossier) },
      { title: "Built from", blocks: builtFrom(dossier) },
      { title: "Instruments", blocks: instruments(dossier) },
      { title: "What was done", blocks: history(dossier) },
      {
        title: "Before you open it",
        blocks: dossier.cautions.map((text) => ({ kind: "words" as const, tone: "caution" as const, text })),
      },
      { title: "How to check this record", blocks: checking(dossier) },
    ].filter(({ blocks }) => blocks.length > 0),
    foot: `${shop} \u00b7 unit ${unit} \u00b7 ledger ${head_sha256.slice(0, 16)}`,
    asOf,
  };
}

/** Lines of the rating plate; a rating that no reading told is a rule to write on. */
export function plateLines({ model, unit, nominal_V, frequency_Hz, mains_W, fuse_A, fuseKind }: RatingPlate): string[] {
  const blank = "____";
  return [
    `${model}  No. ${unit}`,
    `${plain(nominal_V)} V~  ${plain(frequency_Hz)} Hz`,
    `${mains_W === undefined ? blank : plain(mains_W)} W`,
    `Fuse ${fuse_A === undefined ? blank : `${fuseKind ?? ""}${plain(fuse_A)} A`}`,
  ];
}

function frontOf(dossier: Dossier): Block[] {
  const { destination, missing, release, claims } = dossier;
  return [
    ...(release
      ? []
      : [
          {
            kind: "words" as const,
            tone: "stop" as const,
            text: `Not released. ${missing.length === 1 ? "One proof is" : `${missing.length} proofs are`} missing: ${missing.join("; ")}.`,
          },
        ]),
    {
      kind: "words",
      tone: "plain",
      text: `Built to order for ${destination.place}, for mains of ${plain(destination.nominal_V)} V at ${plain(destination.frequency_Hz)} Hz. What follows was measured on this very unit; every figure stands with its doubt, within which the true value lies in 95 cases of 100.`,
    },
    { kind: "heading", text: release ? "What was proven" : "What is proven so far" },
    {
      kind: "table",
      title: "The nearest any figure came to its limit, sheet by sheet",
      head: ["", "Measured", "Allowed", ""],
      right: [false, true, true, false],
      rows: Object.keys(sheetTitles).flatMap((sheet) =>
        frontRow(
          sheet,
          claims.filter((claim) => claim.sheet === sheet),
        ),
      ),
    },
    { kind: "heading", text: "Valves" },
    {
      kind: "facts",
      rows: dossier.valves.map(({ position, type, valve }): [string, string] => [position, `${type}, number ${valve}`]),
    },
    { kind: "heading", text: "Before you open or move it" },
    ...forItsOwner.map((text): Block => ({ kind: "words", tone: "caution", text })),
    ...(release
      ? [{ kind: "words" as const, tone: "quiet" as const, text: "For the workshop: ______________________________" }]
      : []),
  ];
}

/** What whoever uses it must know; those for the bench stand in the record. Common practice, no source. */
const forItsOwner = [
  "Voltages inside kill, for a while even after unplugging. Leave opening it to a qualified technician, who will want this record.",
  "Plug it only into an earthed socket of the voltage on its plate, and fit no other fuse than the plate says.",
  "Valves and the metal about them burn. Keep a hand\u2019s breadth of air about it, and let it cool before you move it.",
  "Turn the volume down before you switch on or plug in; loud listening for hours harms hearing for good.",
];

/** A figure and where it was read; of the whole unit goes without saying. */
function placed({ quantity, where }: DossierFigure): string {
  return where === "" || where.startsWith("unit ") ? quantityName(quantity) : `${quantityName(quantity)}, ${where}`;
}

/** How near a figure lies to the limit it must keep, its doubt taken off: 1 in the middle of its room, 0 at the edge. */
function roomLeft({ value, doubt = 0, low, high }: DossierFigure): number {
  if (value === undefined) return Number.NEGATIVE_INFINITY;
  const toHigh = high === undefined ? Number.POSITIVE_INFINITY : high - value - doubt;
  const toLow = low === undefined ? Number.POSITIVE_INFINITY : value - doubt - low;
  const scale = low !== undefined && high !== undefined ? (high - low) / 2 : Math.abs(high ?? low ?? 1);
  return Math.min(toHigh, toLow) / (scale || 1);
}

function frontRow(sheet: string, claims: readonly DossierClaim[]): string[][] {
  const figures = claims.flatMap(({ figures: all }) => all);
  if (figures.length === 0) return [];
  // A count of none, or a label read aloud, is met or not; how near a measured figure came says more.
  const measured = figures.filter(({ doubt }) => doubt !== undefined && doubt > 0);
  const tightest = (measured.length > 0 ? measured : figures).reduce((least, one) =>
    roomLeft(one) < roomLeft(least) ? one : least,
  );
  const states = new Set(claims.map(({ state }) => state));
  const closed = claims.every(({ state }) => state === "proven" || state === "conceded");
  const words = closed
    ? states.has("conceded")
      ? "conceded in writing"
      : `proven, ${figures.length === 1 ? "one figure" : `${figures.length} figures`}`
    : "not proven";
  const title = sheetTitles[sheet] ?? sheet;
  const what = placed(tightest);
  const named = what.startsWith(title) ? what : `${title}: ${what.charAt(0).toLowerCase()}${what.slice(1)}`;
  return [[named, figureWords(tightest), limitWords(tightest), words]];
}

function proofs({ claims }: Dossier): Layout["record"] {
  return Object.entries(sheetTitles).flatMap(([sheet, title]) => {
    const here = claims.filter((claim) => claim.sheet === sheet);
    if (here.length === 0) return [];
    return [
      {
        title: `Proofs: ${title.toLowerCase()}`,
        blocks: here.flatMap((claim): Block[] => [
          { kind: "heading", text: claim.title, state: claim.state },
          {
            kind: "words",
            tone: claim.state === "refuted" ? "stop" : "quiet",
            text: `${inWords(claim.because)} ${claim.safety ? "A safety proof: it can\u2019t be conceded. " : ""}How it is checked: ${claim.how}`,
          },
          {
            kind: "table",
            title: claim.title,
            head: ["Figure", "Measured", "Allowed", "Stands", "With", "On", "Entry"],
            right: [false, true, true, false, false, false, false],
            rows: claim.figures.map((figure) => [
              placed(figure),
              figureWords(figure),
              limitWords(figure),
              figure.state,
              figure.instrument ?? "",
              figure.at === undefined ? "" : shortDate(figure.at),
              figure.evidence ?? "",
            ]),
          },
        ]),
      },
    ];
  });
}

function pictures({ drawings, balance }: Dossier): Block[] {
  return [
    ...drawings.map((drawing): Block => ({ kind: "drawing", drawing })),
    ...(balance === undefined
      ? []
      : ([
          { kind: "heading", text: "Left against right, by the volume control" },
          { kind: "words", tone: "quiet", text: balance.words },
          {
            kind: "table",
            title: "Difference of the channels at each setting",
            head: ["Setting", "Left over right"],
            right: [false, true],
            rows: balance.rows.map(({ position, difference_dB, doubt_dB }) => [
              position,
              `${withDoubt(difference_dB, doubt_dB)}\u00a0dB`,
            ]),
          },
        ] satisfies Block[])),
  ];
}

function builtFrom({ valves, panels }: Dossier): Block[] {
  const blocks: Block[] = [];
  for (const { position, type, valve, batch, seller, verdict, reasons } of valves) {
    blocks.push(
      { kind: "heading", text: `${position}: ${type}, number ${valve}` },
      {
        kind: "facts",
        rows: [
          ...(batch === undefined ? [] : [["Batch", batch] as const]),
          ...(seller === undefined ? [] : [["From", seller] as const]),
          ...(verdict === undefined ? [] : [["Verdict around its heat run", verdict] as const]),
        ],
      },
      ...reasons.map((text): Block => ({ kind: "words", tone: "quiet", text: inWords(text) })),
    );
  }
  if (panels.length > 0) {
    blocks.push(
      { kind: "heading", text: "The case" },
      {
        kind: "table",
        title: "Panels of the case",
        head: ["Panel", "Board", "Species", "Moisture when joined", "Clearance over the year", ""],
        right: [false, false, false, true, true, false],
        rows: panels.map(({ panel, piece, species, moisture_pct, moistureDoubt_pct, clearance_mm, remedy }) => [
          panel,
          piece,
          species,
          moisture_pct === undefined ? "\u2013" : `${withDoubt(moisture_pct, moistureDoubt_pct)}\u00a0%`,
          clearance_mm === undefined ? "\u2013" : `${withDoubt(Number(clearance_mm.toFixed(2)), undefined)}\u00a0mm`,
          remedy,
        ]),
      },
    );
  }
  return blocks;
}

function instruments({ instruments: all }: Dossier): Block[] {
  if (all.length === 0) return [];
  return [
    {
      kind: "table",
      title: "Instruments that the figures rest on",
      head: ["Instrument", "What it is", "Its last trial"],
      right: [false, false, false],
      rows: all.map(({ instrument, title, trial }) => [instrument, title, inWords(trial)]),
    },
  ];
}

function history({ history: entries, concessions }: Dossier): Block[] {
  return [
    ...concessions.flatMap(({ title, reason, by, at }): Block[] => [
      { kind: "heading", text: `Conceded: ${title}` },
      { kind: "words", tone: "plain", text: `${reason} (${by}, ${longDate(at)})` },
    ]),
    ...(entries.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            title: "Entries of the ledger about this unit, the oldest first",
            head: ["On", "By", "What", "Entry"],
            right: [false, false, false, false],
            rows: entries.map(({ at, by, words, id }) => [shortDate(at), by, inWords(words), id]),
          },
        ]),
  ];
}

function checking({ release, head_sha256, version }: Dossier): Block[] {
  return [
    {
      kind: "words",
      tone: "plain",
      text: "Every entry of the workshop\u2019s ledger carries the hash of the one before it, so an entry changed or missing shows. This record was drawn from the ledger as it stood at the hash below; the same evidence prints the same record, byte for byte.",
    },
    {
      kind: "facts",
      rows: [
        ["Ledger stands at", head_sha256],
        ["Computed by Stillglow", version],
        ...(release
          ? ([
              ["Released by", `${release.by}, ${longDate(release.at)}, entry ${release.entry}`],
              ["Its evidence then stood at", release.resting_sha256],
              ["Judged then by Stillglow", release.version],
            ] as const)
          : []),
      ],
    },
  ];
}
