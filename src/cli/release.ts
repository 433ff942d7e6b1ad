import type { FolderOption } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

/** `stillglow release SERIAL`: exit status 0 when granted, 1 with the list of what is missing. */
export async function release(
  serial: string,
  options: FolderOption & { readonly by: string; readonly json?: boolean },
): Promise<void> {
  const door = await writer(options);
  try {
    const outcome = await door.release(serial, options.by);
    if (options.json) process.stdout.write(`${JSON.stringify(outcome)}\n`);
    else if (outcome.granted) process.stdout.write(`Unit ${serial} is released by ${options.by}.\n`);
    else {
      process.stdout.write(`Release of unit ${serial} is refused; ${outcome.missing.length} missing:\n`);
      for (const { title, state, because } of outcome.missing)
        process.stdout.write(`  ${title} (${state}): ${because}\n`);
    }
    process.exitCode = outcome.granted ? 0 : 1;
  } finally {
    await door.close();
  }
}
