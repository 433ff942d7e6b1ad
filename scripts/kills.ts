// node --import tsx scripts/kills.ts [--kills N] [--minutes N] [--clients N] [--seed WORD]
// Kills the real server at random moments while several clients write, and writes what was found into docs/reliability.md.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { killMany } from "../tests/killing.ts";
import { reachedWith, writeSection } from "./reliabilityPage.ts";

const { values } = parseArgs({
  options: {
    kills: { type: "string", default: "500" },
    /** No further kill after so long. */
    minutes: { type: "string", default: "120" },
    clients: { type: "string", default: "4" },
    seed: { type: "string", default: "1" },
  },
});
const folder = mkdtempSync(join(tmpdir(), "stillglow-kills-"));

const until_ms = Date.now() + Number(values.minutes) * 60_000;

try {
  const clients = Number(values.clients);
  const told = await killMany({
    folder: join(folder, "shop"),
    kills: Number(values.kills),
    clients,
    seed: values.seed,
    isEnough: () => Date.now() > until_ms,
    tell: (kill) => {
      if (kill % 25 === 0) process.stdout.write(`${kill} kills\n`);
    },
  });
  const faults = [...told.lost.map((id) => `lost: ${id}`), ...told.torn.map((id) => `torn: ${id}`), ...told.broken];
  writeSection(
    "Killed while it writes",
    `The real server, killed with SIGKILL at a random moment of the first half second of writing by ${clients} clients, ${told.kills} times on one folder; after each kill the whole chain was read, and the state held against one built anew. By \`node --import tsx scripts/kills.ts\`.

${told.kills} kills, seed ${values.seed}, ${reachedWith()}.

| | |
|---|---|
| kills while some client's write was under way | ${told.duringWrite} |
| of them inside a write: the server had said that it has it (HTTP 100), and had not answered | ${told.insideWrite} |
| writes acknowledged | ${told.acknowledged} |
| acknowledged and not there afterwards | ${told.lost.length} |
| writes of several entries of which only some were there | ${told.torn.length} |
| writes cut off and not there | ${told.cutBeforeCommit} |
| writes cut off between disk and answer, and there | ${told.cutAfterCommit} |
| readings of the chain or the state that were not whole | ${told.broken.length} |
`,
  );
  process.stdout.write(
    `${JSON.stringify({ ...told, lost: told.lost.length, torn: told.torn.length })}\n${faults.join("\n")}\n`,
  );
  process.exitCode = faults.length === 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
