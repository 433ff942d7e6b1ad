import { closeSync, fstatSync, openSync, readSync, statSync } from "node:fs";
import type { Recording } from "../bench/recording.ts";
import { UnreadableRecording } from "../bench/unreadableRecording.ts";
import { readWav } from "../bench/wav.ts";
import { BadInput, quote } from "../maths/badInput.ts";

/**
 * Reads a WAV file from disk.
 *
 * @param path   where the file lies
 * @param given  the path as the user wrote it, quoted in errors
 * @param field  the input field it came from
 * @throws BadInput when nothing is there, when it is no plain file (a device or pipe could block for ever), or
 *   when it is not WAV; no content of such a file is quoted
 */
export function readWavFile(path: string, given: string, field: string): Recording {
  const descriptor = openPlainFile(path, given, field);
  try {
    const size = fstatSync(descriptor).size;
    return readWav({
      size,
      read(offset, length) {
        const bytes = new Uint8Array(Math.max(0, Math.min(length, size - offset)));
        let got = 0;
        while (got < bytes.length) {
          const read = readSync(descriptor, bytes, got, bytes.length - got, offset + got);
          if (read === 0) break;
          got += read;
        }
        return got === bytes.length ? bytes : bytes.subarray(0, got);
      },
    });
  } catch (error) {
    if (error instanceof UnreadableRecording) {
      throw new BadInput(field, `${quote(given)}: ${error.given}`, error.allowed, error.mend);
    }
    throw error;
  } finally {
    closeSync(descriptor);
  }
}

function openPlainFile(path: string, given: string, field: string): number {
  try {
    if (!statSync(path).isFile()) {
      throw new BadInput(
        field,
        quote(given),
        "a plain WAV file, no folder, device or pipe",
        "give the path of a recording",
      );
    }
    return openSync(path, "r");
  } catch (error) {
    if (error instanceof BadInput) throw error;
    const code = (error as NodeJS.ErrnoException).code;
    const why =
      code === "ENOENT" || code === "ENOTDIR"
        ? "there is no file of that name"
        : code === "EACCES"
          ? "reading it is not permitted"
          : "it can't be opened";
    throw new BadInput(
      field,
      quote(given),
      why,
      "paths are taken relative to the input file, or to the working folder when read from stdin",
    );
  }
}
