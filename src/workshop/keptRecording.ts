import { setImmediate } from "node:timers/promises";
import type { RecordingStream } from "../bench/recordingStream.ts";
import { openWavFile } from "../store/wavFile.ts";

/** A recording that was kept, and what its header says of it. */
export interface KeptRecording {
  readonly file_sha256: string;
  readonly rate_Hz: number;
  readonly channels: number;
  readonly frames: number;
}

/** Samples looked at before others get their turn. */
const atOnce = 2 ** 17;

/**
 * Reads a WAV file from end to end, a little at a time: its header, and of float samples that every one is a number.
 *
 * @param given  name quoted when it is refused
 * @throws BadInput  at `recording`
 */
export async function readThrough(path: string, given = "what was sent"): Promise<Omit<KeptRecording, "file_sha256">> {
  const stream = openWavFile(path, given, "recording");
  if (stream.float) await readAll(stream);
  const { rate_Hz, channels, frames } = stream;
  return { rate_Hz, channels, frames };
}

async function readAll(stream: RecordingStream): Promise<void> {
  for (let first = 0; first < stream.frames; first += atOnce) {
    const count = Math.min(atOnce, stream.frames - first);
    stream.read(
      first,
      Array.from({ length: stream.channels }, () => new Float64Array(count)),
    );
    await setImmediate();
  }
}
