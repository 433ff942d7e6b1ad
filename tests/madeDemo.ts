import { cpSync, linkSync, mkdirSync, readdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { onceForAll, runFolder } from "../src/demo/testing/onceForAll.ts";
import { root, stillglow } from "./helpers.ts";

/** Twenty seconds on a quiet machine; a hook that waits for it should grant as much as this. */
export const madeWithin_ms = 300_000;

/**
 * The demo workshop as the command makes it, at a folder of the test's own.
 *
 * It is made once in a run; every test that wants it gets a copy to write in. Recordings are named by what is in them
 * and never change, so copies share them; answers are named by their questions, so whichever server computes one first
 * has computed it for all.
 *
 * @returns what `stillglow demo --once --json` printed when it was made
 */
export function madeDemo(folder: string): string {
  const made = runFolder() === undefined ? folder : join(runFolder()!, "quarrin-ness");
  const printed = onceForAll("quarrin-ness.json", () => {
    const ran = stillglow(["demo", "--once", "--json", "--data", made], "", root, madeWithin_ms);
    if (ran.status !== 0 || ran.stderr !== "") throw new Error(`the demo was not made (${ran.status}): ${ran.stderr}`);
    return Buffer.from(ran.stdout);
  });
  if (made !== folder) {
    const answers = join(made, "cache");
    mkdirSync(answers, { recursive: true });
    cpSync(made, folder, { recursive: true, filter: (from) => !from.endsWith(".wav") && from !== answers });
    symlinkSync(answers, join(folder, "cache"));
    mkdirSync(join(folder, "recordings"), { recursive: true });
    for (const name of readdirSync(join(made, "recordings"))) {
      linkSync(join(made, "recordings", name), join(folder, "recordings", name));
    }
    cpSync(`${made}-truth.json`, `${folder}-truth.json`);
  }
  return Buffer.from(printed).toString("utf8");
}
