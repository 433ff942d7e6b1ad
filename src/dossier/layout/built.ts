import type { Block } from "../block.ts";
import type { Dossier, Instrument } from "../dossier.ts";
import type { Sayer } from "../languages/sayer.ts";

/** With which valves, on which supply, in which order and of which boards it was built. */
export function builtFrom(dossier: Dossier, say: Sayer): Block[] {
  return [...valves(dossier, say), ...supply(dossier, say), ...steps(dossier, say), ...housed(dossier, say)];
}

function valves({ valves: all }: Dossier, { words, withDoubt }: Sayer): Block[] {
  const mA = (value: number | undefined) => (value === undefined ? "\u2013" : `${withDoubt(value, undefined)}\u00a0mA`);
  const pct = (value: number | undefined, doubt: number | undefined) =>
    value === undefined ? "\u2013" : `${withDoubt(value, doubt)}\u00a0%`;
  return all.flatMap((one): Block[] => {
    const { position, type, valve, batch, seller, verdict, sections, sectionSpread_pct, sectionSpreadDoubt_pct } = one;
    const rows: (readonly [string, string])[] = [
      ...(batch === undefined ? [] : [[words.batch, batch] as const]),
      ...(seller === undefined ? [] : [[words.seller, seller] as const]),
      ...(verdict === undefined ? [] : [[words.verdict, words.verdicts[verdict] ?? verdict] as const]),
      ...(sectionSpread_pct === undefined
        ? []
        : [[words.sectionSpread, pct(sectionSpread_pct, sectionSpreadDoubt_pct)] as const]),
    ];
    return [
      { kind: "heading", text: `${position}: ${words.valve(type, valve)}` },
      ...(rows.length > 0 ? [{ kind: "facts" as const, rows }] : []),
      ...(sections.length === 0
        ? []
        : [
            {
              kind: "table" as const,
              title: `${words.sections.title}, ${valve}`,
              head: words.sections.head,
              right: [false, true, true, true],
              rows: sections.map(({ section, cold_mA, hot_mA, drift_pct, doubt_pct }) => [
                section,
                mA(cold_mA),
                mA(hot_mA),
                pct(drift_pct, doubt_pct),
              ]),
            },
          ]),
    ];
  });
}

function supply({ tap, destination, plate }: Dossier, { words, plain, trade }: Sayer): Block[] {
  const { title, tap: tapWord, mains, power, fuse, notRead } = words.supply;
  return [
    { kind: "heading", text: title },
    {
      kind: "facts",
      rows: [
        [tapWord, trade(tap)],
        [mains, `${plain(destination.nominal_V)}\u00a0V, ${plain(destination.frequency_Hz)}\u00a0Hz`],
        [power, plate.mains_W === undefined ? notRead : `${plain(plate.mains_W)}\u00a0W`],
        [fuse, plate.fuse_A === undefined ? notRead : `${plate.fuseKind ?? ""}${plain(plate.fuse_A)}\u00a0A`],
      ],
    },
  ];
}

function steps({ steps: done, stepsBefore }: Dossier, { words, trade, shortDate }: Sayer): Block[] {
  if (done.length === 0 && stepsBefore.length === 0) return [];
  return [
    { kind: "heading", text: words.steps.title },
    ...(stepsBefore.length === 0
      ? []
      : [
          {
            kind: "words" as const,
            tone: "quiet" as const,
            text: words.stepsBefore(stepsBefore.map(trade).join(", ")),
          },
        ]),
    ...(done.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            title: words.steps.title,
            head: words.steps.head,
            right: [false, false, false, false],
            rows: done.map(({ step, by, at, entry }) => [trade(step), trade(by), shortDate(at), entry]),
          },
        ]),
  ];
}

function housed({ panels, coats }: Dossier, { words, withDoubt, trade, shortDate }: Sayer): Block[] {
  if (panels.length === 0 && coats.length === 0) return [];
  const { title, table, head, stands, coats: finish, coat: coatWords } = words.case;
  return [
    { kind: "heading", text: title },
    ...(coats.length === 0
      ? []
      : [
          {
            kind: "facts" as const,
            rows: [[finish, coats.map(({ coat, at }) => coatWords(trade(coat), shortDate(at))).join("; ")] as const],
          },
        ]),
    ...(panels.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            title: table,
            head,
            right: [false, false, false, true, true, false],
            rows: panels.map(({ panel, piece, species, moisture_pct, moistureDoubt_pct, clearance_mm, verdict }) => [
              trade(panel),
              piece,
              trade(species),
              moisture_pct === undefined ? "\u2013" : `${withDoubt(moisture_pct, moistureDoubt_pct)}\u00a0%`,
              clearance_mm === undefined
                ? "\u2013"
                : `${withDoubt(Number(clearance_mm.toFixed(2)), undefined)}\u00a0mm`,
              stands[verdict],
            ]),
          },
        ]),
  ];
}

/** What the figures were read with, and how that stood the newest time it was tried on something known. */
export function instruments({ instruments: all }: Dossier, say: Sayer): Block[] {
  if (all.length === 0) return [];
  const { words, trade } = say;
  return [
    {
      kind: "table",
      title: words.instruments.table,
      head: words.instruments.head,
      right: [false, false, false],
      rows: all.map((one) => [
        one.instrument,
        one.title === undefined ? words.instruments.notOnRecord : trade(one.title),
        trialInWords(one, say),
      ]),
    },
  ];
}

function trialInWords({ standing, trial }: Instrument, { words, trade, value, shortDate }: Sayer): string {
  if (!trial) return words.instruments.never;
  const read = value(trial.quantity, trial.value, trial.doubt);
  return `${words.instruments.trial(read, trade(trial.reference), shortDate(trial.at))}: ${words.instruments.states[standing]}`;
}
