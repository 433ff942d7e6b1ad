import type { Evidence } from "../claims/evidence.ts";
import type { Ledger } from "../claims/index.ts";
import type { Calculate } from "./calculate.ts";
import type { MicrophonyView } from "./views.ts";

type Tapped = Evidence<"recording">;

interface TapAnswer {
  readonly taps: number;
  readonly resonances: readonly {
    readonly frequency_Hz: number;
    readonly q: number;
    readonly decay_ms: number;
    readonly peak_Vpk: number;
  }[];
}

/** Every grid rings for a few swings; from here on it is heard as a note of its own. Common practice, no source. */
const leastQ = 30;
/** The same ring, found again with the bottle reseated. */
const sameRing = 0.03;
/** With another bottle the same place may ring too: this much weaker, it is not the same fault. */
const muchWeaker = 0.25;

/**
 * Whether a valve of the unit rings when it is tapped, and which: a ring belongs to the valve that stood there in every
 * recording that has it, and in none of those that have not.
 *
 * @returns undefined  where nobody has tapped the unit
 */
export async function microphony(
  ledger: Ledger,
  unit: string,
  calculate: Calculate,
): Promise<MicrophonyView | undefined> {
  const tapped = ledger
    .about("recording", unit)
    .filter(({ body, id }) => body.purpose === "tap" && ledger.supersederOf(id) === undefined);
  if (tapped.length === 0) return undefined;
  const heard = await Promise.all(
    tapped.map(async ({ body }: Tapped) => {
      const { file_sha256: recording, fullScale_Vpk, channels } = body;
      const answer = await calculate<TapAnswer>("bench.tap", { recording, fullScale_Vpk, channels });
      return { recording: body.recording, valves: body.valves, ...answer };
    }),
  );
  const recordings = heard.map(({ recording, valves, taps, resonances }) => ({
    recording,
    valves,
    taps,
    rings: resonances
      .filter(({ q }) => q >= leastQ)
      .map(({ frequency_Hz, q, decay_ms, peak_Vpk }) => ({ frequency_Hz, q, decay_ms, peak_Vpk })),
  }));
  if (recordings.every(({ taps }) => taps === 0)) {
    return { state: "undecided", recordings, words: "No tap stands out of the noise: tap harder, or raise the gain." };
  }
  const loudest = recordings.flatMap(({ rings }) => rings).toSorted((a, b) => b.peak_Vpk - a.peak_Vpk)[0];
  if (loudest === undefined) {
    return { state: "quiet", recordings, words: "Tapped, nothing in it rings for longer than any valve does." };
  }
  const rings = ({ rings: own }: (typeof recordings)[number]) =>
    own.some(
      ({ frequency_Hz, peak_Vpk }) =>
        Math.abs(frequency_Hz / loudest.frequency_Hz - 1) < sameRing && peak_Vpk > muchWeaker * loudest.peak_Vpk,
    );
  const suspects = Object.entries(recordings.find(rings)!.valves).filter(([position, valve]) =>
    recordings.every((one) => rings(one) === (one.valves[position] === valve)),
  );
  const note = `${loudest.frequency_Hz.toFixed(0)} Hz for ${loudest.decay_ms.toFixed(0)} ms`;
  const [only, ...others] = suspects;
  const isCompared = recordings.some((one) => !rings(one));
  if (only && others.length === 0 && isCompared) {
    const [position, valve] = only;
    return {
      state: "rings",
      position,
      valve,
      ...loudest,
      recordings,
      words: `Valve ${valve} in ${position} is microphonic: tapped, it rings at ${note}; with another valve in its place nothing does. No hum recording shows it.`,
    };
  }
  const among = suspects.map(([position, valve]) => `${valve} in ${position}`).join(" or ");
  return {
    state: "undecided",
    ...loudest,
    recordings,
    words:
      suspects.length === 0
        ? `Tapped, it rings at ${note}, and with no one valve: look at sockets and wiring.`
        : `Tapped, it rings at ${note}. Exchange ${among} and tap again: a ring that leaves with the valve is the valve's.`,
  };
}
