import { basename } from "node:path";
import type { Surroundings } from "../calculations/calculation.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { readWavFile } from "../store/wavFile.ts";

/** Calculations asked inside a workshop find recordings by their content hash, and nothing else on the disk. */
export function workshopSurroundings(pathOf: (sha256: string) => string): Surroundings {
  return {
    recording(given, field) {
      const sha256 = basename(given).replace(/\.wav$/i, "");
      if (!/^[0-9a-f]{64}$/.test(sha256)) {
        throw new BadInput(
          field,
          quote(given),
          "a recording of this workshop, named by its SHA-256",
          "send the WAV to /api/recordings first and name it by the hash it answers",
        );
      }
      return readWavFile(pathOf(sha256), given, field);
    },
  };
}
