import { readFileSync, statSync } from "node:fs";
import { BadInput, quote } from "../maths/badInput.ts";

/** Larger inputs are read line by line, or do not belong on a command line. */
const most_bytes = 256 * 2 ** 20;

/**
 * The text of a file, or of stdin when none is named.
 *
 * @throws BadInput  at `--in` when it is no plain file (a device would never end), too large, or can't be read
 */
export function readText(file: string | undefined): string {
  try {
    if (file !== undefined) requirePlain(file);
    return readFileSync(file ?? 0, "utf8");
  } catch (error) {
    if (error instanceof BadInput) throw error;
    const code = (error as NodeJS.ErrnoException).code ?? "no reason given";
    throw new BadInput(
      "--in",
      quote(file ?? "stdin"),
      `it can't be read (${code})`,
      "give the path of a file with --in, or the input on stdin",
    );
  }
}

function requirePlain(file: string): void {
  const stat = statSync(file);
  if (!stat.isFile())
    throw new BadInput("--in", quote(file), "a plain file, no folder, device or pipe", "give the path of a file");
  if (stat.size > most_bytes)
    throw new BadInput("--in", `${quote(file)}, ${stat.size} bytes`, `at most ${most_bytes} bytes`, "split it");
}
