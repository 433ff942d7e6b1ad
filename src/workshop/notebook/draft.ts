import type { Evidence } from "../../claims/evidence.ts";
import type { Calculate } from "../calculate.ts";
import type { DraftView, EndsView, FaultView } from "./views.ts";

export type Written = Readonly<Record<string, unknown>>;
type WrittenPart = Written & { readonly id: string; readonly kind: string };

type Checked =
  | { readonly state: "good"; readonly netlist: Written }
  | { readonly state: "faulty"; readonly faults: readonly FaultView[] };

export const checkText = (text: string, calculate: Calculate): Promise<Checked> =>
  calculate<Checked>("circuits.check", { text });

/** Values of a part that can be put on trial, by its kind. */
const onTrial: Readonly<Record<string, readonly string[]>> = {
  resistor: ["ohm", "tolerance"],
  capacitor: ["uF", "tolerance"],
  inductor: ["H", "resistance_ohm", "tolerance"],
  transformer: ["primaryInductance_H", "leakage_H"],
  voltage: ["dc_V", "tolerance"],
  current: ["dc_mA", "tolerance"],
  diode: ["type"],
  rectifier: ["type"],
  triode: ["type"],
  pentode: ["type"],
  jfet: ["type"],
  bipolar: ["type"],
};

/** What a text says: its faults, or its parts by line and the ends that its channels seem to have. */
export async function draftView(text: string, calculate: Calculate): Promise<DraftView> {
  const checked = await checkText(text, calculate);
  if (checked.state === "faulty") return checked;
  const parts = partsOf(checked.netlist);
  const lines = text.split("\n");
  return {
    state: "good",
    sources: parts.filter(({ kind }) => kind === "voltage" || kind === "current").map(({ id }) => id),
    nodes: nodesOf(parts),
    guess: guessEnds(checked.netlist),
    parts: parts.map((part) => ({
      part: part.id,
      line: lines.findIndex((line) => line.includes(`"${part.id}"`)) + 1,
      kind: part.kind,
      fields: (onTrial[part.kind] ?? []).map((field) => {
        const value = part[field];
        return { field, value: typeof value === "number" || typeof value === "string" ? value : null };
      }),
    })),
  };
}

export function partsOf(netlist: Written): readonly WrittenPart[] {
  return Array.isArray(netlist.parts) ? (netlist.parts as readonly WrittenPart[]) : [];
}

function nodesOf(parts: readonly WrittenPart[]): readonly string[] {
  const ends = parts.flatMap((part) => [
    ...(Array.isArray(part.between) ? part.between : []),
    ...(Array.isArray(part.windings)
      ? (part.windings as readonly { between?: unknown }[]).flatMap(({ between }) =>
          Array.isArray(between) ? between : [],
        )
      : []),
    ...["plate", "screen", "grid", "cathode", "drain", "gate", "source", "collector", "base", "emitter"].map(
      (field) => part[field],
    ),
  ]);
  return [...new Set(ends.filter((node): node is string => typeof node === "string"))];
}

/**
 * Where each channel's signal seems to enter and leave: a source that carries one (`ac_V`), and a test point or node
 * of the same channel called out or output. Nothing where the names don't tell.
 */
export function guessEnds(netlist: Written): readonly EndsView[] {
  const parts = partsOf(netlist);
  const inputs = parts.filter(
    (part) => (part.kind === "voltage" || part.kind === "current") && Boolean(part.ac_V || part.ac_mA),
  );
  const points = (Array.isArray(netlist.testPoints) ? netlist.testPoints : []).map((point: unknown) =>
    typeof point === "string"
      ? { name: point, node: point, channel: undefined }
      : (point as { name: string; node: string; channel?: string }),
  );
  const nodes = nodesOf(parts);
  return inputs.flatMap((input): EndsView[] => {
    const channel = typeof input.channel === "string" ? input.channel : inputs.length === 1 ? "mono" : input.id;
    const named = points.find((point) => /\bout(put)?\b/i.test(point.name) && (point.channel ?? channel) === channel);
    const mine = new Set(
      parts.filter((part) => (part.channel ?? channel) === channel).flatMap((part) => nodesOf([part])),
    );
    const node = named?.node ?? nodes.find((one) => /^out/i.test(one) && mine.has(one));
    return node === undefined ? [] : [{ channel, input: input.id, output: node }];
  });
}

/** Prices that stand on the parts, by part. */
function costsOf(netlist: Written): Readonly<Record<string, number>> {
  return Object.fromEntries(
    partsOf(netlist).flatMap(({ id, cost_cents }) =>
      typeof cost_cents === "number" && cost_cents >= 0 ? [[id, cost_cents] as const] : [],
    ),
  );
}

/** What a figured question asks of a page or a draft. */
export function versionQuestion(
  netlist: Written,
  { channels, loads }: Pick<Evidence<"version">["body"], "channels" | "loads">,
): object {
  return { netlist, channels, loads, costs_cents: costsOf(netlist) };
}
