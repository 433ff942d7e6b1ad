import { closeSync, fstatSync, fsyncSync, openSync, readSync, statSync, writeSync } from "node:fs";
import type { Recording } from "../bench/recording.ts";
import type { RecordingStream } from "../bench/recordingStream.ts";
import { UnreadableRecording } from "../bench/unreadableRecording.ts";
import { type ByteSource, openWav, readWav } from "../bench/wav.ts";
import { type WavWriter, type WavWriting, wavWriter } from "../bench/wavWriter.ts";
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
  return withDescriptor(descriptor, given, field, () => readWav(bytesOf(descriptor, fstatSync(descriptor).size)));
}

/**
 * Opens a WAV file of any length for reading a stretch at a time. The file is opened anew for each, so that nothing needs
 * to be closed; one that was exchanged meanwhile is refused.
 *
 * @throws BadInput as `readWavFile`, while reading too
 */
export function openWavFile(path: string, given: string, field: string): RecordingStream {
  const at = openPlainFile(path, given, field);
  const { size, ino, mtimeMs } = fstatSync(at);
  let descriptor = at;
  const source = { size, read: (offset: number, length: number) => bytesOf(descriptor, size).read(offset, length) };
  const stream = withDescriptor(at, given, field, () => openWav(source));
  return {
    ...stream,
    read(first, into) {
      descriptor = openPlainFile(path, given, field);
      withDescriptor(descriptor, given, field, () => {
        const now = fstatSync(descriptor);
        if (now.size !== size || now.ino !== ino || now.mtimeMs !== mtimeMs) {
          throw new UnreadableRecording("a file that changed while it was read", "a file at rest", "read it again");
        }
        stream.read(first, into);
      });
    },
  };
}

function bytesOf(descriptor: number, size: number): ByteSource {
  return {
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
  };
}

/** Does something with an open file and closes it; what is wrong with the recording becomes bad input at its field. */
function withDescriptor<T>(descriptor: number, given: string, field: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof UnreadableRecording) {
      throw new BadInput(field, `${quote(given)}: ${error.given}`, error.allowed, error.mend);
    }
    throw error;
  } finally {
    closeSync(descriptor);
  }
}

/**
 * Writes a WAV file a stretch at a time, RF64 beyond 4 GiB. Whoever asked for it calls `close`; before that the file is an
 * unfinished recording.
 *
 * @throws Error  of the file system, where the file is there already too
 */
export function createWavFile(path: string, writing: WavWriting): WavWriter {
  const descriptor = openSync(path, "wx");
  let size = 0;
  const put = (bytes: Uint8Array, at: number) => {
    for (let done = 0; done < bytes.length; ) {
      done += writeSync(descriptor, bytes, done, bytes.length - done, at + done);
    }
  };
  const writer = wavWriter(
    {
      append(bytes) {
        put(bytes, size);
        size += bytes.length;
      },
      overwrite: (offset, bytes) => put(bytes, offset),
    },
    writing,
  );
  return {
    write: (samples) => writer.write(samples),
    close() {
      try {
        writer.close();
        fsyncSync(descriptor);
      } finally {
        closeSync(descriptor);
      }
    },
  };
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
