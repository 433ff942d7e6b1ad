import type { Evidence } from "./evidence.ts";
import type { Figure, Ledger } from "./ledger.ts";
import { instrumentTrust } from "./trust.ts";

/** What a figure stands on, followed down to what was read. */
export interface Footing {
  /** Why it can't count, when something under it has gone. */
  readonly fallen?: { readonly why: string; readonly by?: string };
  /** An instrument under it that no trial vouches for. */
  readonly unvouched?: { readonly why: string; readonly wouldDecide: string };
  /** Entries about units among what it stands on, itself included. */
  readonly basis: readonly Evidence[];
  readonly instruments: readonly string[];
}

/** Follows a reading or finding down; a finding falls with anything in its `from`. */
export function footing(ledger: Ledger, figure: Figure): Footing {
  const reached = new Set<string>();
  const basis: Evidence[] = [];
  const instruments = new Set<string>();
  let fallen: Footing["fallen"];
  let unvouched: Footing["unvouched"];

  const follow = (id: string): void => {
    if (reached.has(id)) return;
    reached.add(id);
    const entry = ledger.get(id);
    if (!entry) {
      fallen ??= { why: `it was drawn from ${id}, which is not on record` };
      return;
    }
    const superseder = ledger.supersederOf(id);
    if (superseder !== undefined)
      fallen ??= { why: `it was drawn from ${id}, which ${superseder} superseded`, by: superseder };
    if (unitOf(entry) !== undefined) basis.push(entry);
    for (const instrument of instrumentsOf(entry)) {
      instruments.add(instrument);
      const trust = instrumentTrust(ledger, instrument, entry);
      if (trust.state === "failed") fallen ??= { why: trust.why, by: trust.trial };
      if (trust.state === "undecided") unvouched ??= trust;
    }
    if (entry.body.kind === "finding") for (const source of entry.body.from) follow(source);
  };
  follow(figure.id);

  return { ...(fallen && { fallen }), ...(unvouched && { unvouched }), basis, instruments: [...instruments] };
}

/** What an entry was read with; a recording rests on the regenerator that fed the unit as well as on its recorder. */
function instrumentsOf({ body }: Evidence): readonly string[] {
  switch (body.kind) {
    case "reading":
    case "valve-reading":
    case "reference-reading":
    case "weighing":
    case "offcut":
    case "air":
      return [body.instrument];
    case "recording":
      return body.supply.instrument === undefined ? [body.instrument] : [body.instrument, body.supply.instrument];
    default:
      return [];
  }
}

function unitOf({ body }: Evidence): string | undefined {
  switch (body.kind) {
    case "reading":
    case "finding":
      return body.subject.unit;
    case "recording":
      return body.unit;
    default:
      return undefined;
  }
}
