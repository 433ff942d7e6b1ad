import type { Evidence } from "../../claims/evidence.ts";
import type { Calculate } from "../calculate.ts";
import type { BalanceView } from "./views.ts";

type Taken = Evidence<"recording">;

interface BalanceAnswer {
  readonly byPosition: readonly {
    readonly position: string | number;
    readonly difference_dB: number;
    readonly doubt_dB: number;
  }[];
  readonly change?: {
    readonly state: "changes" | "stays" | "undecided";
    readonly common_dB: number;
    readonly spread_dB: number;
    readonly spreadDoubt_dB: number;
    readonly reason: string;
  };
}

interface Round {
  readonly valves: Readonly<Record<string, string>>;
  readonly byPosition: BalanceView["rounds"][number]["byPosition"];
  readonly change: NonNullable<BalanceAnswer["change"]>;
}

/** Less than this between left and right is no fault of anything. */
const matters_dB = 0.1;
/** Reseated contacts alone move a balance by so much, 95 %. Common practice, no source. */
const reseating_dB = 0.05;

/**
 * What makes left and right differ: tones of both channels at several settings of the volume control, and the same
 * again with other valves in.
 *
 * An error that changes with the setting is the control's tracks; one that is alike at every setting lies in the
 * channels, and goes with a valve or stays when valves are exchanged.
 *
 * @returns undefined  where tones were recorded at fewer than two settings
 */
export async function balanceOverVolume(
  taken: readonly Taken[],
  calculate: Calculate,
): Promise<BalanceView | undefined> {
  const rounds: Round[] = [];
  for (const entries of byValves(taken)) {
    const answer = await calculate<BalanceAnswer>("bench.balance", {
      kind: "tone",
      recordings: entries.map(({ body }) => ({
        recording: body.file_sha256,
        fullScale_Vpk: body.fullScale_Vpk,
        channels: body.channels,
        position: body.volume,
      })),
    });
    if (!answer.change) continue;
    rounds.push({
      valves: entries[0]!.body.valves,
      byPosition: answer.byPosition.map(({ position, ...figures }) => ({ position: String(position), ...figures })),
      change: answer.change,
    });
  }
  if (rounds.length === 0) return undefined;
  return { ...verdictOf(rounds), rounds: rounds.map(({ valves, byPosition }) => ({ valves, byPosition })) };
}

/** Recordings with the same valves in, at two settings or more; the newest at each. */
function byValves(taken: readonly Taken[]): readonly (readonly Taken[])[] {
  const rounds = new Map<string, Map<string, Taken>>();
  for (const entry of taken) {
    const { purpose, volume, driven, channels, valves } = entry.body;
    const isStereo = channels.includes("left") && channels.includes("right");
    if (purpose !== "tone" || volume === undefined || (driven ?? "both") !== "both" || !isStereo) continue;
    const key = JSON.stringify(Object.entries(valves).sort());
    const round = rounds.get(key) ?? new Map<string, Taken>();
    rounds.set(key, round.set(volume, entry));
  }
  return [...rounds.values()].filter((round) => round.size > 1).map((round) => [...round.values()]);
}

function verdictOf(rounds: readonly Round[]): Pick<BalanceView, "cause" | "words"> {
  const [first, ...others] = rounds as [Round, ...Round[]];
  const states = new Set(rounds.map(({ change }) => change.state));
  if (states.has("undecided") || states.size > 1) {
    const words = states.size > 1 ? "Some rounds change with the setting, others do not" : first.change.reason;
    return { cause: "undecided", words: `Undecided. ${words.replace(/\.?$/, ".")}` };
  }
  if (first.change.state === "changes") {
    if (others.length === 0) {
      return {
        cause: "undecided",
        words: `${first.change.reason} Exchange the valves and record the same settings again: an error that stays is the control's.`,
      };
    }
    const moved_dB = Math.max(...others.map((other) => shiftBetween(first, other).shift_dB));
    if (moved_dB < 0.5 * first.change.spread_dB) {
      return {
        cause: "control",
        words: `Left and right part by ${first.change.spread_dB.toFixed(2)} dB over the settings, with either set of valves alike: the tracks of the volume control differ. The valves are not at fault.`,
      };
    }
    return {
      cause: "undecided",
      words: `The error changes with the setting and, by ${moved_dB.toFixed(2)} dB, with the valves too: look for both.`,
    };
  }
  const largest_dB = Math.max(...rounds.map(({ change }) => Math.abs(change.common_dB)));
  if (largest_dB < matters_dB) {
    return { cause: "alike", words: "Left and right are alike at every setting, within a tenth of a decibel." };
  }
  const common = `${first.change.common_dB.toFixed(2)} dB`;
  if (others.length === 0) {
    return {
      cause: "undecided",
      words: `Left over right stays at ${common} at every setting: it is not the control. Exchange the valves and record again: an error that goes with them is theirs, one that stays is the circuit's.`,
    };
  }
  for (const other of others) {
    const { shift_dB, doubt_dB } = shiftBetween(first, other);
    if (shift_dB - doubt_dB > matters_dB && shift_dB > 0.5 * largest_dB) {
      return {
        cause: "valves",
        words: `Left over right is ${common} with ${named(first, other)} and ${other.change.common_dB.toFixed(2)} dB with ${named(other, first)}, alike at every setting: it goes with the valves. The volume control is not at fault.`,
      };
    }
  }
  return {
    cause: "circuit",
    words: `Left over right stays at ${common} at every setting and with either set of valves: it is neither the control nor a valve, so look at the parts of the two channels.`,
  };
}

/** How far exchanging the valves moved the balance at the settings that both rounds have. */
function shiftBetween(one: Round, other: Round): { readonly shift_dB: number; readonly doubt_dB: number } {
  const pairs = one.byPosition.flatMap((here) => {
    const there = other.byPosition.find(({ position }) => position === here.position);
    return there ? [{ here, there }] : [];
  });
  if (pairs.length === 0) return { shift_dB: Math.abs(one.change.common_dB - other.change.common_dB), doubt_dB: 0.1 };
  const mean = (of: (pair: (typeof pairs)[number]) => number) =>
    pairs.reduce((sum, pair) => sum + of(pair), 0) / pairs.length;
  const shift_dB = Math.abs(mean(({ here, there }) => here.difference_dB - there.difference_dB));
  const doubt_dB = Math.sqrt(mean(({ here, there }) => here.doubt_dB ** 2 + there.doubt_dB ** 2) / pairs.length);
  return { shift_dB, doubt_dB: Math.hypot(doubt_dB, reseating_dB) };
}

/** The valves of one round that do not stand in the other. */
function named(round: Round, other: Round): string {
  return (
    Object.entries(round.valves)
      .filter(([position, valve]) => other.valves[position] !== valve)
      .map(([position, valve]) => `${valve} in ${position}`)
      .join(", ") || "the same valves"
  );
}
