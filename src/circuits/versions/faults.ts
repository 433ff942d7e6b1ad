import type { z } from "zod";
import { BadInput } from "../../maths/badInput.ts";
import { checkNetlist } from "../check.ts";
import { buildCircuit } from "../circuit.ts";
import { type Netlist, netlistSchema } from "../netlist.ts";
import { readText } from "./netlistText.ts";

/** One thing wrong with a net list written as text: where it stands, what it is, what to do. */
interface NetlistFault {
  readonly line: number;
  /** Field as it stands in the net list, `parts[3].ohm`. */
  readonly path: string;
  readonly part?: string;
  readonly message: string;
}

export type CheckedText =
  | {
      readonly ok: true;
      readonly netlist: Netlist;
      /** As written, fields that the circuit does not ask for included. */
      readonly written: Readonly<Record<string, unknown>>;
    }
  | { readonly ok: false; readonly faults: readonly NetlistFault[] };

const mostFaults = 20;

/** Says what is wrong with a field in the words that all input is refused in. */
export type Explain = (issue: z.core.$ZodIssue, value: unknown) => { readonly path: string; readonly message: string };

/** Reads and checks a net list written as text, naming each fault by its line and part. */
export function checkText(text: string, explain: Explain): CheckedText {
  const read = readText(text);
  if (!read.ok) {
    const part = /"id"\s*:\s*"([^"]+)"/.exec(text.split("\n")[read.fault.line - 1] ?? "")?.[1];
    return { ok: false, faults: [{ ...read.fault, path: "", ...(part !== undefined && { part }) }] };
  }
  const { value, lineOf } = read;
  const named = ({ path, message }: { readonly path: string; readonly message: string }): NetlistFault => {
    const part = partAt(value, path);
    return { line: lineOf(path), path, ...(part !== undefined && { part }), message };
  };
  const shape = netlistSchema.safeParse(value);
  if (!shape.success) {
    return { ok: false, faults: shape.error.issues.slice(0, mostFaults).map((issue) => named(explain(issue, value))) };
  }
  try {
    checkNetlist(shape.data, "netlist", true);
    buildCircuit(shape.data, "netlist");
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return { ok: false, faults: [named({ path: fault.path.replace(/^netlist\.?/, ""), message: fault.message })] };
  }
  return { ok: true, netlist: shape.data, written: value as Readonly<Record<string, unknown>> };
}

function partAt(value: unknown, path: string): string | undefined {
  const index = /^parts\[(\d+)\]/.exec(path)?.[1];
  const parts = (value as { parts?: unknown } | null)?.parts;
  const part: unknown = index === undefined || !Array.isArray(parts) ? undefined : parts[Number(index)];
  const id = (part as { id?: unknown } | null | undefined)?.id;
  return typeof id === "string" ? id : undefined;
}
