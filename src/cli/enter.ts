import { BadInput, quote } from "../maths/badInput.ts";
import { readText } from "./readText.ts";
import type { FolderOption } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

/** `stillglow enter`: JSON Lines of evidence, all or none. */
export async function enter(options: FolderOption & { readonly in?: string; readonly json?: boolean }): Promise<void> {
  const entries = parseLines(readText(options.in));
  const door = await writer(options);
  try {
    const written = await door.enter(entries);
    if (options.json) process.stdout.write(`${JSON.stringify(written)}\n`);
    else for (const { id, body } of written) process.stdout.write(`${id}  ${body.kind}\n`);
  } finally {
    await door.close();
  }
}

function parseLines(text: string): unknown[] {
  const lines = text.split(/\r?\n/);
  return lines.flatMap((line, index) => {
    if (line.trim() === "") return [];
    try {
      return [JSON.parse(line)];
    } catch {
      throw new BadInput(
        `line ${index + 1}`,
        quote(line.slice(0, 60)),
        "one JSON object on each line",
        "mend the JSON; nothing was written",
      );
    }
  });
}
