import { BadInput, quote } from "../../maths/badInput.ts";
import type { BodyOf, Model } from "../evidence.ts";
import { modelKey, type Shop } from "../shop.ts";
import { netlistParts } from "../things.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";

/** A version that was released must be on a page of the notebook. */
export function requireFromVersion({ model, fromVersion }: Model, shop: Shop): void {
  if (fromVersion !== undefined)
    requireKnown("fromVersion", fromVersion, versionsOf(model, shop), `version of ${model}`);
}

/**
 * Refuses a version whose net list names no parts, whose channels end nowhere in it, or whose name is taken.
 *
 * Whether it can be solved is not asked: a design that does not work yet may be kept and mended.
 */
export function admitVersion(version: BodyOf<"version">, shop: Shop): void {
  const { model, netlist, channels } = version;
  const older = shop.versions.get(modelKey(model, version.version));
  if (older && version.supersedes !== older.id) {
    throw new BadInput(
      "version",
      quote(version.version),
      `${model} has a version of that name`,
      "give it another name, or supersede the older entry",
    );
  }
  if (version.from !== undefined) requireKnown("from", version.from, versionsOf(model, shop), `version of ${model}`);
  const { parts } = netlist;
  if (!Array.isArray(parts) || parts.length === 0) {
    throw new BadInput("netlist.parts", quote(parts), "a list of parts", "give the net list as circuits.rest takes it");
  }
  const named = netlistParts(version);
  const nameless = parts.findIndex((part: unknown) => typeof (part as { id?: unknown } | null)?.id !== "string");
  if (nameless >= 0) {
    throw new BadInput(`netlist.parts[${nameless}].id`, quote(parts[nameless]), "a part with an id", "name the part");
  }
  const ids = named.map(({ id }) => id);
  requireDistinct("netlist.parts", ids, "part");
  requireDistinct(
    "channels",
    channels.map(({ channel }) => channel),
    "channel",
  );
  requireDistinct(
    "loads",
    version.loads.map(({ name }) => name),
    "load",
  );
  for (const [i, { input }] of channels.entries()) requireKnown(`channels[${i}].input`, input, ids, "part");
}

/** Refuses trials between versions that are on no page, of a version against itself, or with more answers than trials. */
export function admitListening({ model, versions, asked }: BodyOf<"listening">, shop: Shop): void {
  const known = versionsOf(model, shop);
  for (const [i, version] of versions.entries()) requireKnown(`versions[${i}]`, version, known, `version of ${model}`);
  requireDistinct("versions", versions, "version");
  const [field, count] = asked.kind === "difference" ? ["right", asked.right] : ["second", asked.second];
  if (count > asked.trials) {
    throw new BadInput(`asked.${field}`, String(count), `at most ${asked.trials}, the trials made`, "count again");
  }
}

export function versionsOf(model: string, shop: Shop): readonly string[] {
  return [...shop.versions.values()].filter(({ body }) => body.model === model).map(({ body }) => body.version);
}
