// node --import tsx scripts/powerCuts.ts [--writings N] [--cuts N] [--seed WORD]
// Writes into a real store and cuts the power, by a model of what a disk then holds; writes what was found into
// docs/reliability.md.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { cutPower } from "../tests/powerCuts.ts";
import { reachedWith, writeSection } from "./reliabilityPage.ts";

const { values } = parseArgs({
  options: {
    writings: { type: "string", default: "600" },
    cuts: { type: "string", default: "4" },
    seed: { type: "string", default: "1" },
  },
});
const room = mkdtempSync(join(tmpdir(), "stillglow-power-"));
try {
  const told = await cutPower({
    room,
    writings: Number(values.writings),
    cutsAWriting: Number(values.cuts),
    every: 1,
    seed: values.seed,
  });
  writeSection(
    "Power cut while it writes",
    `A model of what a disk holds after the power failed, over the bytes of a real store. When a write is acknowledged its log was synchronised, so the files as they are then are what the disk surely has. Of what is written until the next acknowledgement the disk keeps any part, in any order, by sectors of 512 bytes, some of them torn (half old, or noise), at the file's old or new length. One order is kept, as the database waits for the disk in between: pages move from the log into the file only after the log was synchronised. Every folder left so was opened and read whole. The trial itself is tried in the tests: a disk that loses what it had confirmed is found out. What it can't show: a disk or a system that confirms without writing. By \`node --import tsx scripts/powerCuts.ts\`.

${told.cuts} power cuts, seed ${values.seed}, ${reachedWith()}.

| | |
|---|---|
| cuts that left part of an unacknowledged writing's bytes | ${told.partlyWritten} |
| cuts while pages were moved into the file | ${told.whileMoving} |
| entries acknowledged in all | ${told.acknowledged} |
| acknowledged and not there afterwards | ${told.lost.length} |
| writes of several entries of which only some were there | ${told.torn.length} |
| unacknowledged writes that were there whole | ${told.thereUnacknowledged} |
| folders that did not open, or whose chain was not whole | ${told.broken.length} |
`,
  );
  const faults = [...told.lost, ...told.torn, ...told.broken];
  process.stdout.write(
    `${JSON.stringify({ ...told, lost: told.lost.length, torn: told.torn.length, broken: told.broken.length })}\n${faults.slice(0, 20).join("\n")}\n`,
  );
  process.exitCode = faults.length === 0 ? 0 : 1;
} finally {
  rmSync(room, { recursive: true, force: true });
}
