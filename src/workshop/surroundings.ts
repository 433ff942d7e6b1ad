import { basename } from "node:path";
import type { Surroundings } from "../calculations/calculation.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { openWavFile, readWavFile } from "../store/wavFile.ts";

/** Calculations asked inside a workshop find recordings by their content hash, and nothing else on the disk. */
export function workshopSurroundings(pathOf: (sha256: string) => string): Surroundings {
  const found = (given: string, field: string) => {
    const sha256 = basename(given).replace(/\.wav$/i, "");
    if (!/^[0-9a-f]{64}$/.test(sha256)) {
      throw new BadInput(
        field,
        quote(given),
        "a recording of this workshop, named by its SHA-256",
        "send the WAV to /api/recordings first and name it by the hash it answers",
      );
    }
    return pathOf(sha256);
  };
  return {
    recording: (given, field) => readWavFile(found(given, field), given, field),
    stream: (given, field) => openWavFile(found(given, field), given, field),
  };
}
