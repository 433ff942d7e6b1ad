import { catalogueEntry } from "../../valves/model.ts";
import { isValve, type Netlist, type ValvePart } from "../netlist.ts";
import { noiseInBand } from "../noiseInBand.ts";
import type { PartAtRest } from "../partAtRest.ts";
import { response } from "../response.ts";
import { type RestSolution, solveRest } from "../rest.ts";
import type { Unsettled } from "../settle.ts";
import { distortionInto } from "./distortionInto.ts";
import type { Figure } from "./figure.ts";
import { heatOf } from "./heat.ts";
import { heaterLevels } from "./heaters.ts";
import { type Load, levelOf, loaded } from "./loads.ts";
import { namedPoints } from "./points.ts";

export interface ChannelEnds {
  readonly channel: string;
  /** Id of the source that drives it. */
  readonly input: string;
  /** Node it is taken from, against ground. */
  readonly output: string;
}

export interface VersionQuestion {
  readonly netlist: Netlist;
  readonly channels: readonly ChannelEnds[];
  readonly loads: readonly Load[];
  readonly frequency_Hz: number;
  /** What each part costs, by part, in whole minor units. */
  readonly costs_cents: Readonly<Record<string, number>>;
}

export interface VersionFigures {
  readonly state: "solved";
  readonly figures: readonly Figure[];
  readonly notes: readonly string[];
}

/** Above this a source delivers no current worth a figure. */
const noInput_ohm = 1e12;

const bandEnds_Hz = [20, 20_000] as const;

/**
 * What a net list comes to, figure by figure: direct voltages, valves beside their ratings, gain, distortion, output
 * impedance and band ends into real loads, noise, heat and the cost of its parts.
 *
 * @throws BadInput as `solveRest`, or naming the channel's input or output
 */
export function versionFigures(question: VersionQuestion): VersionFigures | Unsettled {
  const { netlist } = question;
  const rest = solveRest(netlist);
  if (rest.state !== "solved") return rest;
  const notes = new Set(rest.notes);
  const figures = [
    ...pointFigures(netlist, rest),
    ...valveFigures(netlist, rest, notes),
    ...soundFigures(question, rest, notes),
    ...noiseFigures(question, notes),
    ...heatFigures(netlist, rest, notes),
    ...costFigures(question, notes),
  ];
  return { state: "solved", figures, notes: [...notes] };
}

function pointFigures(netlist: Netlist, rest: RestSolution): Figure[] {
  return namedPoints(netlist).map(({ name, node, stage }) => ({
    key: `point ${name}`,
    group: "points",
    of: name,
    quantity: "level_V",
    value: rest.nodes[node]!,
    twin: `${stage ?? ""} point`,
  }));
}

function valveFigures(netlist: Netlist, rest: RestSolution, notes: Set<string>): Figure[] {
  const heaters = heaterLevels(netlist, rest);
  return netlist.parts.filter(isValve).flatMap((part) => {
    const at = rest.parts[part.id]!;
    const heater = heaters.get(part.id);
    if (heater?.known === false) {
      notes.add("heaters without a part of their own in the net list (V1h for V1) are taken to stand at ground");
    }
    const heaterCathode_V = heater && heater.heater_V - (rest.nodes[part.cathode] ?? 0);
    return ofValve(part, at, heaterCathode_V);
  });
}

function ofValve(part: ValvePart, at: PartAtRest, heaterCathode_V: number | undefined): Figure[] {
  const ratings = part.type === undefined ? undefined : catalogueEntry(part.type)?.ratings;
  const rows: readonly (readonly [quantity: string, value: number | undefined, most?: number])[] = [
    ["plate_V", at.plate_V, part.kind === "triode" ? (ratings?.screen_V ?? ratings?.plate_V) : ratings?.plate_V],
    ["grid_V", at.grid_V],
    ["plate_mA", at.plate_mA, ratings?.plate_mA],
    ["cathode_mA", part.kind === "pentode" ? at.cathode_mA : undefined, ratings?.cathode_mA],
    ["gm_mS", at.gm_mS],
    ["dissipation_W", at.dissipation_W, ratings?.plateDissipation_W],
    ["screen_V", at.screen_V, ratings?.screen_V],
    ["screenDissipation_W", at.screenDissipation_W, ratings?.screenDissipation_W],
    [
      "heaterToCathode_V",
      heaterCathode_V,
      (heaterCathode_V ?? 0) > 0 ? ratings?.heaterCathodePositive_V : ratings?.heaterCathodeNegative_V,
    ],
  ];
  return rows.flatMap(([quantity, value, most]) =>
    value === undefined
      ? []
      : [
          {
            key: `valve ${part.id} ${quantity}`,
            group: "valves",
            of: part.type === undefined ? part.id : `${part.id}, ${part.type}`,
            quantity,
            value,
            ...(most !== undefined && { most }),
            twin: `${part.stage ?? ""} ${part.type ?? part.kind} ${quantity}`,
          },
        ],
  );
}

function soundFigures(question: VersionQuestion, rest: RestSolution, notes: Set<string>): Figure[] {
  const { netlist, channels, loads, frequency_Hz } = question;
  return channels.flatMap(({ channel, input, output }) => {
    const figure = (of: string, quantity: string, value: number): Figure => ({
      key: `sound ${channel} ${of} ${quantity}`,
      group: "sound",
      of: of === "" ? "unloaded" : of,
      where: channel,
      quantity,
      value,
      twin: `sound ${of} ${quantity}`,
    });
    const middle = (circuit: Netlist) =>
      response(circuit, { input, output, frequencies_Hz: [frequency_Hz, ...bandEnds_Hz] });
    const open = middle(netlist);
    if (open.state !== "solved") {
      notes.add(`${channel}: ${open.reason}`);
      return [];
    }
    for (const note of open.notes) if (!note.startsWith("an input impedance of")) notes.add(note);
    const own = [
      figure("", "gain_dB", open.gain_dB[0]!),
      figure("", "outputImpedance_ohm", open.outputImpedance_ohm[0]!),
      ...(open.inputImpedance_ohm[0]! < noInput_ohm
        ? [figure("", "inputImpedance_ohm", open.inputImpedance_ohm[0]!)]
        : []),
      figure("", "dcAtOutput_mV", rest.nodes[output]! * 1e3),
    ];
    const into = loads.flatMap((load) => {
      const circuit = loaded(netlist, output, load);
      const there = middle(circuit);
      if (there.state !== "solved") return [];
      const [gain_dB, low_dB, high_dB] = there.gain_dB as [number, number, number];
      const bent = distortionInto(netlist, { input, output, frequency_Hz, gain_dB, load });
      if (bent.state !== "solved") notes.add(`${load.name}, ${channel}: ${bent.reason}`);
      return [
        figure(load.name, "gain_dB", gain_dB),
        figure(`${load.name} at ${bandEnds_Hz[0]} Hz`, "response_dB", low_dB - gain_dB),
        figure(`${load.name} at ${bandEnds_Hz[1] / 1e3} kHz`, "response_dB", high_dB - gain_dB),
        ...(bent.state === "solved"
          ? [figure(`${load.name} at ${brief(levelOf(load))} V`, "thd_pct", bent.thd_pct)]
          : []),
      ];
    });
    return [...own, ...into];
  });
}

function noiseFigures({ netlist, channels, frequency_Hz }: VersionQuestion, notes: Set<string>): Figure[] {
  return channels.flatMap(({ channel, input, output }): Figure[] => {
    const hiss = noiseInBand(netlist, { output });
    if (hiss.state !== "solved") return [];
    for (const note of hiss.notes) notes.add(note);
    const loudest = hiss.shares[0];
    if (loudest) notes.add(`${channel}: ${percent(loudest.share)} of the hiss comes from ${loudest.part}`);
    const gain = response(netlist, { input, output, frequencies_Hz: [frequency_Hz] });
    const figure = (of: string, quantity: string, value: number): Figure => ({
      key: `noise ${channel} ${of} ${quantity}`,
      group: "noise",
      of,
      where: channel,
      quantity,
      value,
      twin: `noise ${of}`,
    });
    const at = figure("at the output", "hissA_uVrms", hiss.noiseA_Vrms * 1e6);
    if (gain.state !== "solved") return [at];
    return [at, figure("as if at the input", "hissA_uVrms", (hiss.noiseA_Vrms * 1e6) / 10 ** (gain.gain_dB[0]! / 20))];
  });
}

const brief = (value: number) => String(Number(value.toPrecision(3)));
const percent = (share: number) => `${Math.round(share * 100)} %`;

function heatFigures(netlist: Netlist, rest: RestSolution, notes: Set<string>): Figure[] {
  const heat = heatOf(netlist, rest);
  for (const note of heat.notes) notes.add(note);
  const partOf = new Map(netlist.parts.map((part) => [part.id, part]));
  return [
    { key: "heat case", group: "heat", of: "in the case", quantity: "heat_W", value: heat.total_W, twin: "case" },
    ...heat.parts.map(({ part, heat_W }): Figure => {
      const { stage, kind } = partOf.get(part) ?? {};
      return {
        key: `heat ${part}`,
        group: "heat",
        of: part,
        quantity: "heat_W",
        value: heat_W,
        twin: `heat ${stage ?? ""} ${kind ?? ""}`,
      };
    }),
  ];
}

function costFigures({ netlist, costs_cents }: VersionQuestion, notes: Set<string>): Figure[] {
  const priced = netlist.parts.filter(({ id }) => costs_cents[id] !== undefined);
  if (priced.length === 0) return [];
  const bought = netlist.parts.filter(({ kind }) => kind !== "voltage" && kind !== "current");
  const without = bought.filter(({ id }) => costs_cents[id] === undefined).map(({ id }) => id);
  if (without.length > 0) {
    const some = without.slice(0, 6).join(", ");
    const more = without.length > 6 ? ` and ${without.length - 6} more` : "";
    notes.add(`the cost is incomplete: ${without.length} of ${bought.length} parts have no price (${some}${more})`);
  }
  const value = priced.reduce((sum, { id }) => sum + costs_cents[id]!, 0);
  return [{ key: "cost", group: "cost", of: "its parts", quantity: "cost_cents", value, twin: "cost" }];
}
