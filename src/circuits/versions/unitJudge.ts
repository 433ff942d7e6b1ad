import { checkNetlist } from "../check.ts";
import { buildCircuit, type Fitted, refit } from "../circuit.ts";
import type { Netlist } from "../netlist.ts";
import { ratingInWords } from "../ratings.ts";
import { difference, inDecibels, portsOf } from "../response.ts";
import { ratingsExceededAt } from "../rest.ts";
import { settle, type Unsettled } from "../settle.ts";
import { answerTo, answerVector, factorAt, smallSignal } from "../smallSignal.ts";
import { namedPoints } from "./points.ts";
import type { ChannelEnds } from "./version.ts";

export interface UnitLimits {
  /** Greatest difference between any two channels' gains. */
  readonly balance_dB?: number | undefined;
  /** How far a channel's gain may lie from the version's own. */
  readonly gain_dB?: number | undefined;
}

/** A limit that one unit breaks: a short name to count by, and what it came to. */
export interface Broken {
  readonly limit: string;
  readonly words: string;
}

export interface UnitJudge {
  /** What the version comes to with its own values and curves. */
  readonly gains_dB: readonly number[];
  /** Limits that a unit with these parts breaks, none for a good one; `fed` leaves balance out unless it is true. */
  judge(fitted: Fitted, withBalance: boolean): readonly Broken[];
}

/**
 * Judges one unit after another by the version's limits: ratings of valves, test points that say how far they may
 * lie from rest (`tolerance`), gain and balance.
 *
 * @throws BadInput as `solveRest`, or naming a channel's input or output
 */
export function unitJudge(
  netlist: Netlist,
  channels: readonly ChannelEnds[],
  frequency_Hz: number,
  limits: UnitLimits,
): UnitJudge | Unsettled {
  checkNetlist(netlist, "netlist", true);
  const circuit = buildCircuit(netlist);
  const own = settle(circuit);
  if (own.state !== "solved") return own;
  const ports = channels.map((ends, i) => portsOf(circuit, ends, channels.length > 1 ? `[${i}]` : ""));
  const points = namedPoints(netlist).filter(({ tolerance }) => tolerance !== undefined);
  const volts = (x: Float64Array, node: string): number => {
    const unknown = circuit.unknownOf(node)!;
    return unknown < 0 ? 0 : x[unknown]!;
  };
  const gains = (of: typeof circuit, x: Float64Array): number[] | undefined => {
    if (ports.length === 0) return [];
    const signal = smallSignal(of, x);
    if (factorAt(signal, frequency_Hz) >= 0) return undefined;
    const answer = answerVector(signal);
    return ports.map(({ drive, plus, minus, source }) => {
      answerTo(signal, drive, answer);
      const out_dB = inDecibels(difference(answer, plus, minus)).gain_dB;
      if (source.kind === "voltage") return out_dB;
      return out_dB - inDecibels(difference(answer, source.plus, source.minus)).gain_dB;
    });
  };
  const gains_dB = gains(circuit, own.x) ?? [];

  const judge = (fitted: Fitted, withBalance: boolean): Broken[] => {
    const unit = refit(circuit, { ...fitted, values: fitted.values ?? new Map() });
    const settled = settle(unit, own.x);
    if (settled.state !== "solved") return [{ limit: "comes to rest", words: settled.reason }];
    const broken: Broken[] = [];
    for (const rating of ratingsExceededAt(unit, settled)) {
      broken.push({ limit: `${rating.part} ${rating.what}`, words: ratingInWords(netlist, rating) });
    }
    for (const { name, node, tolerance } of points) {
      const [is, was] = [volts(settled.x, node), volts(own.x, node)];
      const reach = tolerance! * Math.abs(was);
      if (Math.abs(is - was) <= reach) continue;
      broken.push({
        limit: name,
        words: `${name} ${brief(is)} V, allowed ${brief(was - reach)} to ${brief(was + reach)} V`,
      });
    }
    if (limits.gain_dB === undefined && (limits.balance_dB === undefined || !withBalance)) return broken;
    const now = gains(unit, settled.x);
    if (now === undefined) return [...broken, { limit: "gain", words: "no gain could be found" }];
    if (limits.gain_dB !== undefined) {
      for (const [i, gain_dB] of now.entries()) {
        const off = gain_dB - gains_dB[i]!;
        if (Math.abs(off) <= limits.gain_dB) continue;
        const { channel } = channels[i]!;
        broken.push({
          limit: `gain, ${channel}`,
          words: `gain of ${channel} ${brief(off)} dB from the version's, allowed ${brief(limits.gain_dB)} dB`,
        });
      }
    }
    if (withBalance && limits.balance_dB !== undefined && now.length > 1) {
      const apart = Math.max(...now) - Math.min(...now);
      if (apart > limits.balance_dB) {
        broken.push({
          limit: "balance",
          words: `channels ${brief(apart)} dB apart, allowed ${brief(limits.balance_dB)} dB`,
        });
      }
    }
    return broken;
  };
  return { gains_dB, judge };
}

const brief = (value: number): string => String(Number(value.toPrecision(3)));
