import type { Block } from "../block.ts";
import type { Dossier, Entry } from "../dossier.ts";
import type { Sayer } from "../languages/sayer.ts";

/** What was conceded, and every entry of the ledger about the unit. */
export function history({ history: entries, concessions }: Dossier, say: Sayer): Block[] {
  const { words, trade, longDate, shortDate } = say;
  return [
    ...concessions.flatMap(({ title, reason, by, at }): Block[] => [
      { kind: "heading", text: words.history.conceded(trade(title)) },
      { kind: "words", tone: "plain", text: words.history.concession(reason, trade(by), longDate(at)) },
    ]),
    ...(entries.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            title: words.history.table,
            head: words.history.head,
            right: [false, false, false, false],
            rows: entries.map(({ at, by, entry, id }) => [shortDate(at), trade(by), entryInWords(entry, say), id]),
          },
        ]),
  ];
}

function entryInWords(entry: Entry, say: Sayer): string {
  const told = say.words.history.entries[entry.kind] as (one: Entry, by: Sayer) => string;
  return say.inWords(told(entry, say));
}

export function cautions({ dangers }: Dossier, { words }: Sayer): Block[] {
  return [...dangers.map((danger) => words.cautions.dangers[danger]), words.cautions.always].map((text) => ({
    kind: "words",
    tone: "caution",
    text,
  }));
}

/** Whose entries it rests on, and a rule for each hand that signs the paper. */
export function signatures({ history: entries, release }: Dossier, { words, trade, shortDate }: Sayer): Block[] {
  const { lead, table, head, wrote, between, released, byHand } = words.signatures;
  const hands = [...new Set(entries.map(({ by }) => by))].toSorted();
  return [
    { kind: "words", tone: "plain", text: lead },
    ...(hands.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            title: table,
            head,
            right: [false, false, false],
            rows: [
              ...hands.map((by) => {
                const own = entries.filter((entry) => entry.by === by).map(({ at }) => at);
                const [from, to] = [shortDate(own[0]!), shortDate(own.at(-1)!)];
                return [trade(by), wrote(own.length), from === to ? from : between(from, to)];
              }),
              ...(release ? [[trade(release.by), released(release.entry), shortDate(release.at)]] : []),
            ],
          },
        ]),
    { kind: "lines", rows: byHand },
  ];
}

export function checking({ release, head_sha256, version }: Dossier, { words, trade, longDate }: Sayer): Block[] {
  const { text, head, version: versionWord, releasedBy, release: released, resting, judged } = words.checking;
  return [
    { kind: "words", tone: "plain", text },
    {
      kind: "facts",
      rows: [
        [head, head_sha256],
        [versionWord, version],
        ...(release
          ? ([
              [releasedBy, released(trade(release.by), longDate(release.at), release.entry)],
              [resting, release.resting_sha256],
              [judged, release.version],
            ] as const)
          : []),
      ],
    },
  ];
}
