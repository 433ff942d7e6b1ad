import { humWords, proposalWords, unitWords } from "./words.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";

/** `stillglow unit SERIAL`: the unit folder in words. */
export async function unit(serial: string, options: FolderOption & { readonly json?: boolean }): Promise<void> {
  const workshop = await openToRead(options);
  try {
    const view = await workshop.unit(serial);
    const hum = await workshop.humHearing(serial);
    if (options.json) {
      process.stdout.write(`${JSON.stringify({ ...view, hum })}\n`);
      return;
    }
    const parts = [
      unitWords(view),
      ...(hum.recordings.length > 0 ? [humWords(hum)] : []),
      ...(view.proposal ? [proposalWords(view.proposal)] : []),
    ];
    process.stdout.write(`${parts.join("\n\n")}\n`);
  } finally {
    await workshop.close();
  }
}
