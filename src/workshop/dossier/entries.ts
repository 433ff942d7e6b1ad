import type { Evidence } from "../../claims/evidence.ts";
import type { Dossier, Entry } from "../../dossier/dossier.ts";

/** Entries of the ledger about a unit, the oldest first, each as what its record says of it. */
export function entriesAbout(evidence: readonly Evidence[], unit: string): Dossier["history"] {
  return evidence
    .filter(({ body }) => ("unit" in body && body.unit === unit) || ("subject" in body && body.subject.unit === unit))
    .map(({ id, at, by, body }) => ({ id, at, by, entry: entryOf(body) }));
}

function entryOf(body: Evidence["body"]): Entry {
  switch (body.kind) {
    case "unit":
      return { kind: "unit", model: body.model, revision: body.revision, tap: body.tap, fitted: body.fitted };
    case "step":
      return { kind: "step", step: body.step };
    case "reading":
    case "finding": {
      const { position, section, channel, point } = body.subject;
      const where = [position, section && `section ${section}`, channel, point].filter(Boolean).join(" ");
      const { quantity, value, doubt } = body;
      return body.kind === "reading"
        ? { kind: "reading", quantity, where, value, doubt, instrument: body.instrument }
        : { kind: "finding", quantity, where, value, doubt, calculation: body.calculation };
    }
    case "recording":
      return {
        kind: "recording",
        recording: body.recording,
        purpose: body.purpose,
        ...(body.supply.source === "regenerated" && { hertz: body.supply.frequency_Hz }),
        input: body.input,
        valves: body.valves,
      };
    case "rework":
      return { kind: "rework", why: body.why, ...(body.fitted && { fitted: body.fitted }) };
    case "coat":
      return { kind: "coat", coat: body.product ?? body.finish };
    case "machined":
      return { kind: "machined", piece: body.piece };
    case "case-given":
      return { kind: "caseGiven", case: body.case };
    case "meant":
      return { kind: "meant", pieces: body.pieces.join(", ") };
    case "concession":
      return { kind: "concession", claim: body.claim, reason: body.reason };
    case "release":
      return { kind: "release", claims: body.claims.length, version: body.version };
    default:
      return { kind: "other", name: body.kind };
  }
}
