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
    const instrument = instrumentOf(entry);
    if (instrument !== undefined) {
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

function instrumentOf({ body }: Evidence): string | undefined {
  switch (body.kind) {
    case "reading":
    case "recording":
    case "valve-reading":
    case "reference-reading":
      return body.instrument;
    default:
      return undefined;
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
