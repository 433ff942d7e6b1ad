import { readNetlist } from "../../circuits/index.ts";
import { type Figure, namedPoints, positionsBehind, positionsOf } from "../../circuits/versions/index.ts";
import { admitModel } from "../../claims/admit/model.ts";
import type { Model, Requirement, Thing } from "../../claims/evidence.ts";
import { body } from "../../claims/evidence.ts";
import { modelKey } from "../../claims/index.ts";
import { isAll, wiredAspects, wiredParts } from "../../claims/things.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import { safetyCautions } from "../../safety/index.ts";
import { catalogueEntry } from "../../valves/index.ts";
import { carriedClaims, caseClaims, checkers, type ModelEntry, modelClaims } from "./claims.ts";
import { versionQuestion } from "./draft.ts";
import { type NotebookCase, revisionsOf, versionNamed } from "./notebook.ts";
import { type Windows, windowQuestion } from "./outlook.ts";
import type { ReleaseDraftView } from "./views.ts";

/** A window is never closer than this to either side: meters and scale stand between. */
const leastSide_V = 0.1;
const leastSide = 0.01;

/**
 * A version as a revision of its model, with a claim for all that the circuit says must be so: windows of its test
 * points, gain and balance, noise, distortion and band, heaters, and the routine safety tests.
 *
 * Claims of the revision before that the circuit says nothing of (the case, the finish) are taken over. Nothing is
 * written down: the entry is handed back, for its limits to be looked at first.
 *
 * @throws BadInput  a version that can't be solved, or a revision that is on record
 */
export async function releaseDraft(
  model: string,
  version: string,
  { revision, title }: { readonly revision?: string | undefined; readonly title?: string | undefined },
  asked: NotebookCase,
): Promise<ReleaseDraftView> {
  const { shop, calculate } = asked;
  const page = versionNamed(shop, model, version).body;
  const revisions = revisionsOf(shop, model);
  const before = revisions.at(-1);
  const name = revision ?? nextRevision(revisions.map((one) => one.revision));
  if (shop.models.has(modelKey(model, name))) {
    throw new BadInput("revision", quote(name), `${model} has a revision of that name`, "give the next one");
  }
  const netlist = readNetlist(page.netlist);
  const answer = await calculate<{
    state: string;
    reason?: string;
    figures?: readonly Figure[];
    notes: readonly string[];
  }>("circuits.version", versionQuestion(page.netlist, page));
  if (!answer.figures) {
    throw new BadInput("version", quote(version), answer.reason ?? "it finds no rest", "mend its net list first");
  }
  const windows = await calculate<Windows>("circuits.spread", windowQuestion(page.netlist));
  if (windows.state !== "solved") {
    throw new BadInput(
      "version",
      quote(version),
      windows.reason ?? "its windows can't be had",
      "mend its net list first",
    );
  }
  const positions = positionsOf(netlist).map(({ position, type, sections }) => ({
    position,
    type,
    sections: { ...sections },
  }));
  const channels = page.channels.map(({ channel }) => channel);
  const stageOfNode = (node: string) =>
    netlist.parts.find((part) => part.stage !== undefined && Object.values(part).flat().includes(node))?.stage;
  const wiring = { netlist: page.netlist, positions, channels: channels.length > 0 ? channels : ["mono"] };
  const ofCircuit = modelClaims(
    {
      ...wiring,
      channels,
      figures: answer.figures,
      points: namedPoints(netlist).flatMap(({ name: point, node, stage }) => {
        const window = windows.points[point];
        const of = stage ?? stageOfNode(node);
        return window && of !== undefined ? [{ name: point, stage: of, ...opened(window) }] : [];
      }),
      behind: positionsBehind(netlist),
      loads: page.loads,
      balance_dB: page.limits.balance_dB ?? before?.balanceLimit_dB ?? 0.5,
      gain_dB: page.limits.gain_dB ?? 1,
      shop,
    },
    (type) => catalogueEntry(type)?.heater,
  );
  const made = before ? ofCircuit : [...ofCircuit, ...caseClaims(shop)];
  const parts = wiredParts({ ...wiring, claims: [] } as unknown as Model);
  const carried = carriedClaims(before, made, isThereIn(parts), isRequiredOf(positions, channels));
  const ohms = page.channels.flatMap(({ channel }) =>
    answer.figures!.filter(({ key }) => key === `sound ${channel}  outputImpedance_ohm`).map(({ value }) => value),
  );
  const feeds = feedsOf(netlist, positions, wiring.channels);
  const entry: ModelEntry = {
    kind: "model",
    model,
    revision: name,
    title: title ?? before?.title ?? model,
    fromVersion: version,
    ...wiring,
    ...(feeds && { feeds }),
    input: Object.fromEntries(page.channels.map(({ channel, input }) => [channel, input])),
    output: Object.fromEntries(page.channels.map(({ channel, output }) => [channel, output])),
    outputImpedance_ohm: Number(Math.max(0, ...ohms).toPrecision(3)),
    balanceLimit_dB: page.limits.balance_dB ?? before?.balanceLimit_dB ?? 0.5,
    claims: [...made, ...carried.claims],
    build: before?.build ?? usualBuild(asked),
    ...(before?.shelf && { shelf: before.shelf }),
  };
  requireWhole(entry, page.channels.length > 0);
  return {
    model,
    version,
    revision: name,
    entry,
    carried: carried.claims.map(({ title: one }) => one),
    notes: notesOn(answer.notes, windows, carried.left, before, namedPoints(netlist).length),
    cautions: safetyCautions,
  };
}

/** Says what a newcomer's version still lacks, before the ledger would refuse it. */
function requireWhole(entry: ModelEntry, hasEnds: boolean): void {
  if (!hasEnds) {
    throw new BadInput(
      "channels",
      "no channel",
      "at least one channel with the source that drives it and the node it is taken from",
      "write the version down again with its channels",
    );
  }
  admitModel(body.parse(entry) as Model);
}

function opened({ low_V, high_V }: { readonly low_V: number; readonly high_V: number }) {
  const middle = (low_V + high_V) / 2;
  const side = Math.max((high_V - low_V) / 2, leastSide_V, leastSide * Math.abs(middle));
  return { low_V: middle - side, high_V: middle + side };
}

const isThereIn =
  (parts: readonly Thing[]) =>
  (thing: Thing): boolean => {
    const wired = Object.fromEntries(wiredAspects.flatMap((a) => (thing[a] === undefined ? [] : [[a, thing[a]]])));
    return Object.keys(wired).length === 0 || parts.some((part) => isAll(part, wired));
  };

const isRequiredOf =
  (positions: Model["positions"], channels: readonly string[]) =>
  ({ position, section, channel }: Requirement): boolean => {
    if (channel !== undefined && !channels.includes(channel)) return false;
    if (position === undefined) return true;
    const place = positions.find((one) => one.position === position);
    return place !== undefined && (section === undefined || section in place.sections);
  };

function feedsOf(
  netlist: ReturnType<typeof readNetlist>,
  positions: Model["positions"],
  channels: readonly string[],
): Record<string, string[]> | undefined {
  const channelOf = new Map(netlist.parts.map(({ id, channel }) => [id, channel]));
  const feeds = positions.flatMap(({ position, sections }): [string, string[]][] => {
    const fed = Object.values(sections).map((part) => channelOf.get(part));
    const known = fed.filter((one): one is string => one !== undefined && channels.includes(one));
    return known.length === fed.length ? [[position, [...new Set(known)]]] : [];
  });
  return feeds.length > 0 ? Object.fromEntries(feeds) : undefined;
}

/** A, B, … Z, then numbers; after revisions of another kind, the next number. */
function nextRevision(known: readonly string[]): string {
  const last = known.toSorted().at(-1);
  if (last === undefined) return "A";
  if (/^[A-Y]$/.test(last)) return String.fromCharCode(last.charCodeAt(0) + 1);
  return String(known.length + 1);
}

function usualBuild({ shop }: NotebookCase): ModelEntry["build"] {
  const who = checkers(shop);
  return [
    {
      step: "chassis and wiring",
      skill: who.skill("wiring"),
      ...who.place("wiring bench"),
      hours: { fast: 8, usual: 12, slow: 20 },
      failOdds: 0.08,
    },
    { step: "heat run", ...who.place("heat-run rack"), hours: { fast: 24, usual: 24, slow: 24 }, unattended: true },
  ];
}

function notesOn(
  own: readonly string[],
  windows: Windows,
  left: readonly string[],
  before: Model | undefined,
  points: number,
): readonly string[] {
  return [
    ...own,
    ...(windows.notes ?? []),
    ...(points === 0 ? ["the net list names no test points, so no voltage is claimed; name some to have windows"] : []),
    "noise is claimed at twice what was computed, output impedance at 1.3 times, for what the net list leaves out",
    ...(before ? [] : ["the steps of building are a first guess; put the shop’s own in their place"]),
    ...left.map((title) => `not taken over, for what it rested on is gone: ${title}`),
  ];
}
