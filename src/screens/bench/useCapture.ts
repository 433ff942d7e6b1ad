import { useEffect, useRef, useState } from "react";
import { encodeWav } from "../../bench/encodeWav.ts";
import { evenlyScaled, grainBits } from "../../bench/loopback/grain.ts";
import { channelWords } from "../common/channel.ts";
import { plainNumber } from "../common/number.ts";
import { type Captured, type CaptureQuestion, capture, type Progress, Stopped } from "./capture/capture.ts";
import { dropTake, keepTake, keptTake } from "./capture/keptTake.ts";
import { take } from "./messages.ts";

export interface Take extends Captured {
  readonly wav: Blob;
  readonly grain_bits: number;
  readonly seconds: number;
}

export type CaptureState =
  | { readonly at: "rest"; readonly said?: string; readonly error?: string }
  | { readonly at: "countdown"; readonly left_s: number }
  | { readonly at: "running"; readonly progress?: Progress }
  /** `isKept`: it outlives a reload. `isFound`: it did. */
  | { readonly at: "taken"; readonly take: Take; readonly isKept: boolean; readonly isFound?: boolean };

const countdown_s = 3;
const second_ms = 1000;

/**
 * One recording at a time: countdown, the capture itself with its levels, what came of it.
 *
 * @param keptAs  what the browser keeps the recording under until `clear`, so that a reload does not lose it
 */
export function useCapture(keptAs?: string) {
  const [state, setState] = useState<CaptureState>({ at: "rest" });
  const stopper = useRef<AbortController>(undefined);
  useEffect(() => {
    if (keptAs === undefined) return;
    let isLeft = false;
    void keptTake<Take>(keptAs).then((take) => {
      if (!take || isLeft) return;
      setState((now) => (now.at === "rest" ? { at: "taken", take, isKept: true, isFound: true } : now));
    });
    return () => {
      isLeft = true;
    };
  }, [keptAs]);
  const wouldBeLost = state.at === "running" || (state.at === "taken" && !state.isKept);
  useEffect(() => {
    if (!wouldBeLost) return;
    const ask = (leaving: BeforeUnloadEvent) => leaving.preventDefault();
    window.addEventListener("beforeunload", ask);
    return () => window.removeEventListener("beforeunload", ask);
  }, [wouldBeLost]);

  const begin = async (question: CaptureQuestion): Promise<Take | undefined> => {
    const aborting = new AbortController();
    stopper.current = aborting;
    const { signal } = aborting;
    try {
      for (let left_s = countdown_s; left_s > 0; left_s--) {
        setState({ at: "countdown", left_s });
        await pause(second_ms, signal);
      }
      setState({ at: "running" });
      const captured = await capture(question, (progress) => setState({ at: "running", progress }), signal);
      const taken = await asFile(captured);
      setState({ at: "taken", take: taken, isKept: false });
      if (keptAs !== undefined && (await keepTake(keptAs, taken)))
        setState((now) => (now.at === "taken" && now.take === taken ? { ...now, isKept: true } : now));
      return taken;
    } catch (fault) {
      setState({ at: "rest", ...inWords(fault) });
      return undefined;
    }
  };
  const stop = () => stopper.current?.abort();
  const clear = (said?: string) => {
    if (keptAs !== undefined) void dropTake(keptAs);
    setState({ at: "rest", ...(said !== undefined && { said }) });
  };
  return { state, begin, stop, clear };
}

/** In the coarsest samples that hold every one of them exactly, so that the file says how fine it really is. */
async function asFile(captured: Captured): Promise<Take> {
  const samples = evenlyScaled(captured.samples);
  const grain_bits = grainBits(samples);
  const encoding = grain_bits <= 16 ? "pcm16" : grain_bits <= 24 ? "pcm24" : "float32";
  const bytes = encodeWav(captured.rate_Hz, samples, { encoding });
  return {
    ...captured,
    samples,
    grain_bits,
    seconds: (captured.samples[0]?.length ?? 0) / captured.rate_Hz,
    wav: new Blob([bytes as Uint8Array<ArrayBuffer>], { type: "audio/wav" }),
  };
}

function inWords(fault: unknown): { said?: string; error?: string } {
  if (fault instanceof Stopped) return { said: take.stopped };
  if (fault instanceof DOMException && fault.name === "NotAllowedError") return { error: take.refused };
  if (fault instanceof DOMException && /NotFound|Overconstrained|NotReadable/.test(fault.name))
    return { error: take.noInput };
  return { error: fault instanceof Error ? fault.message : String(fault) };
}

function pause(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((done, fail) => {
    const timer = setTimeout(done, ms);
    signal.addEventListener(
      "abort",
      () => {
        clearTimeout(timer);
        fail(new Stopped());
      },
      { once: true },
    );
  });
}

/** What speaks against a recording just made, most important first; nothing when it is sound. */
export function warningsOf(
  { rate_Hz, samples, clipped, lost, meddling, converted_Hz }: Captured,
  names: readonly string[],
): readonly string[] {
  const nameOf = (c: number) => channelWords(names[c] ?? String(c + 1));
  const listed = (which: (c: number) => boolean) =>
    samples
      .map((_, c) => c)
      .filter(which)
      .map(nameOf)
      .join(", ");
  const over = listed((c) => clipped[c] === true);
  const silent = listed((c) => samples[c]!.every((value) => value === samples[c]![0]));
  return [
    over && take.wasClipped(over),
    lost > 0 && take.lost(lost),
    silent && take.silent(silent),
    meddling.length > 0 && take.meddled(meddling.join(", ")),
    converted_Hz !== undefined && take.converted(plainNumber(converted_Hz), plainNumber(rate_Hz)),
  ].filter((warning) => typeof warning === "string" && warning !== "") as string[];
}
