// node --import tsx scripts/load.ts [--minutes 10] [--benches 50] [--rest-ms 1000] [--seed WORD] [--data FOLDER] [--only folder|database] [--page]
// Benches write to and read from a single server with its own folder, then two servers on one PostgreSQL database; every
// acknowledged write is read back. With --page the result goes into docs/reliability.md.
import { spawn } from "node:child_process";
import { once } from "node:events";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { parseArgs } from "node:util";
import { moveIntoDatabase, openStore } from "../src/store/index.ts";
import { makeCluster, makeDatabase, removeCluster } from "../src/store/testing/postgres.ts";
import { makeLoadedShop } from "../tests/loadedShop.ts";
import { type Loaded, loadBenches, quantile } from "../tests/loading.ts";
import { serverAt } from "../tests/serverAt.ts";
import { reachedWith, writeSection } from "./reliabilityPage.ts";

const { values } = parseArgs({
  options: {
    minutes: { type: "string", default: "10" },
    benches: { type: "string", default: "50" },
    "rest-ms": { type: "string", default: "1000" },
    seed: { type: "string", default: "1" },
    /** A workshop to begin with, such as the demo's; a small one is made when left out. */
    data: { type: "string" },
    only: { type: "string" },
    page: { type: "boolean", default: false },
  },
});
const benches = Number(values.benches);
const minutes = Number(values.minutes);
const rest_ms = Number(values["rest-ms"]);
/** Of what was loaded, not of what came while it ran. */
const when = reachedWith();
const room = mkdtempSync(join(tmpdir(), "stillglow-load-"));

interface Measured extends Loads {
  readonly how: string;
  /** Acknowledged readings that were not there afterwards, with their value, in the ledger itself. */
  readonly lost: number;
  readonly chain: string;
  readonly entries: number;
}

/** Four lines of a server, to know what the machine itself allowed at that time. */
const bareServer = `require("node:http").createServer((_, answer) => answer.end("yes"))
  .listen(0, "127.0.0.1", function () { console.log(this.address().port) })`;

try {
  const ways = { folder: onFolder, database: onDatabase };
  const measured: Measured[] = [];
  for (const [way, run] of Object.entries(ways)) {
    if (values.only !== undefined && values.only !== way) continue;
    const one = await run();
    measured.push(one);
    process.stdout.write(`${rowOf(one)}\n`);
    for (const fault of [...one.failed, ...one.unseen].slice(0, 10)) process.stdout.write(`  ${fault}\n`);
  }
  if (values.page) for (const one of measured) writeSection(`Load on ${one.how}`, sectionOf(one));
  const sound = measured.every(
    ({ lost, failed, unseen, chain }) => lost + failed.length + unseen.length === 0 && chain === "whole",
  );
  process.exitCode = sound ? 0 : 1;
} finally {
  rmSync(room, { recursive: true, force: true });
}

async function begun(name: string): Promise<string> {
  const folder = join(room, name);
  if (values.data === undefined) await makeLoadedShop(folder, benches);
  else cpSync(values.data, folder, { recursive: true });
  return folder;
}

async function onFolder(): Promise<Measured> {
  const folder = await begun("single");
  const server = await serverAt({ folder });
  const loaded = await underLoad(server.address);
  await server.stop();
  return readBack("one server with its own folder", loaded, folder);
}

async function onDatabase(): Promise<Measured> {
  const cluster = await makeCluster();
  try {
    const database = await makeDatabase(cluster);
    const folder = await begun("moved");
    await moveIntoDatabase(folder, database, new Date().toISOString());
    const servers = [await serverAt({ folder, database }), await serverAt({ folder: await fresh("second"), database })];
    const loaded = await underLoad(...servers.map(({ address }) => address));
    for (const server of servers) await server.stop();
    return await readBack("two servers beside one PostgreSQL", loaded, folder, database);
  } finally {
    removeCluster(cluster);
  }
}

async function fresh(name: string): Promise<string> {
  return mkdtempSync(join(room, `${name}-`));
}

type Loads = Loaded & { readonly bare_ms: readonly number[] };

async function underLoad(...addresses: string[]): Promise<Loads> {
  const bare = spawn(process.execPath, ["-e", bareServer], { stdio: ["ignore", "pipe", "inherit"] });
  const [port] = (await once(bare.stdout, "data")) as [Buffer];
  const bare_ms: number[] = [];
  let isOver = false;
  const asking = (async () => {
    while (!isOver) {
      const begun = performance.now();
      await (await fetch(`http://127.0.0.1:${String(port).trim()}`)).text();
      bare_ms.push(performance.now() - begun);
      await pause(200);
    }
  })();
  const loaded = await loadBenches({
    addresses,
    benches,
    duration_s: minutes * 60,
    rest_ms,
    seed: values.seed,
    name: "load",
  });
  isOver = true;
  await asking;
  bare.kill();
  return { ...loaded, bare_ms };
}

async function readBack(how: string, loaded: Loads, folder: string, database?: string): Promise<Measured> {
  const store = await openStore(folder, { write: false, database });
  try {
    const read = await store.verify();
    const there = new Map(store.evidence({ kind: "reading" }).map(({ id, body }) => [id, body]));
    const lost = loaded.acknowledged.filter(({ id, unit, value }) => {
      const body = there.get(id);
      return body?.kind !== "reading" || body.value !== value || body.subject.unit !== unit;
    }).length;
    const chain = read.ok ? "whole" : `entry ${read.seq}: ${read.problem}`;
    return { ...loaded, how, lost, chain, entries: store.evidence().length };
  } finally {
    await store.close();
  }
}

function times(of: readonly number[]): string {
  const at = (share: number) => Math.round(quantile(of, share));
  return `${at(0.5)} / ${at(0.95)} / ${at(0.99)} / ${Math.round(Math.max(...lastOf(of)))}`;
}

/** The largest few, since a call takes only so many arguments. */
function lastOf(of: readonly number[]): readonly number[] {
  return of.toSorted((a, b) => b - a).slice(0, 10);
}

function rowOf(one: Measured): string {
  return `| ${[
    one.how,
    one.acknowledged.length,
    one.lost,
    times(one.writes_ms),
    one.reads_ms.length,
    times(one.reads_ms),
    times(one.heard_ms),
    times(one.bare_ms),
    one.failed.length,
    one.unseen.length,
    one.chain,
  ].join(" | ")} |`;
}

function sectionOf(one: Measured): string {
  const memory_GB = existsSync("/proc/meminfo")
    ? Math.round(Number(/MemTotal:\s+(\d+)/.exec(readFileSync("/proc/meminfo", "utf8"))?.[1]) / 2 ** 20)
    : "unknown";
  return `${benches} benches for ${minutes} minutes: each writes a reading, looks at once for it on its card (which another server shows, where there are two), reads the overview or the unit's conditions, and rests ${rest_ms / 1000} s on average between acts; each keeps a page open that is fetched anew when the ledger grows. ${values.data === undefined ? "A small workshop with a unit for each bench." : "The demo workshop, its open units dealt over the benches."} By \`node --import tsx scripts/load.ts --page\`.

${when}, seed ${values.seed}; servers, database and benches together on ${cpus().length} cores (${cpus()[0]?.model.trim()}), ${memory_GB} GB; load average over the last quarter of an hour ${loadavg()[2]?.toFixed(1)}, which tells how much other work the machine had. Times in ms: median / 95th / 99th percentile / longest.

| | |
|---|---|
| writes acknowledged | ${one.acknowledged.length} |
| of them not there afterwards, with their value | ${one.lost} |
| chain read whole afterwards | ${one.chain}, ${one.entries} entries |
| write | ${times(one.writes_ms)} |
| reads | ${one.reads_ms.length} |
| read | ${times(one.reads_ms)} |
| heard by a page elsewhere | ${times(one.heard_ms)} |
| written, answered, and not shown at once elsewhere | ${one.unseen.length} |
| answers other than 200 | ${one.failed.length} |
| a bare server that says "yes", asked meanwhile | ${times(one.bare_ms)} |
`;
}
