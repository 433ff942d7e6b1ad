import { type ChildProcess, spawn } from "node:child_process";
import { Agent, request } from "node:http";
import { join } from "node:path";
import { foldShop } from "../src/claims/index.ts";
import { randomStream } from "../src/maths/random.ts";
import { openStore } from "../src/store/index.ts";
import { root } from "./helpers.ts";

/**
 * Kills the real server, again and again, while several clients write to it, and holds the folder afterwards against
 * what the clients were told.
 */
export interface Killed {
  readonly kills: number;
  /** Kills that came while some client's write was under way. */
  readonly duringWrite: number;
  /** Of those, kills by which the server itself had said that it has such a write in hand (HTTP 100), and not answered. */
  readonly insideWrite: number;
  /** Writes cut off by a kill that were on disk all the same: it fell after the commit, before the answer. */
  readonly cutAfterCommit: number;
  /** Writes cut off that left nothing: it fell before the commit. */
  readonly cutBeforeCommit: number;
  readonly acknowledged: number;
  readonly lost: readonly string[];
  /** Writes of several entries of which only some were there. */
  readonly torn: readonly string[];
  /** What a reading of the whole chain found wrong. */
  readonly broken: readonly string[];
}

export interface KillOptions {
  readonly folder: string;
  readonly kills: number;
  readonly clients: number;
  readonly seed: string;
  /** No further kill once this is so. */
  isEnough?(): boolean;
  /** Called after each kill. */
  tell?(kill: number): void;
}

interface Written {
  readonly ids: readonly string[];
  state: "under way" | "in hand" | "acknowledged" | "cut";
}

const command = join(root, "bin", "stillglow");
const longestRun_ms = 500;

export async function killMany({
  folder,
  kills: most,
  clients,
  seed,
  isEnough = () => false,
  tell,
}: KillOptions): Promise<Killed> {
  const chance = randomStream(`kills ${seed}`);
  const all: Written[] = [];
  const broken: string[] = [];
  let duringWrite = 0;
  let insideWrite = 0;
  let known = 0;
  let kills = 0;
  for (; kills < most && !isEnough(); kills += 1) {
    const kill = kills;
    const { server, address } = await started(folder);
    const draw = chance.fork(String(kill));
    const writers = Array.from({ length: clients }, (_, client) =>
      writeOn(address, `k${kill}c${client}`, 1 + Math.floor(draw.uniform() * 30), all),
    );
    await new Promise((later) => setTimeout(later, draw.uniform() * longestRun_ms));
    // The moment is random against the writes; counted as inside one by what no client has heard of yet.
    if (all.some(({ state }) => state === "under way" || state === "in hand")) duringWrite += 1;
    if (all.some(({ state }) => state === "in hand")) insideWrite += 1;
    await killed(server);
    await Promise.all(writers);
    const store = await openStore(folder);
    try {
      const read = await store.verify();
      if (!read.ok) broken.push(`after kill ${kill}: entry ${read.seq}: ${read.problem}`);
      const entries = store.evidence();
      if (entries.length < known)
        broken.push(`after kill ${kill}: ${known - entries.length} entries fewer than before`);
      known = entries.length;
      const rebuilt = [...foldShop(entries).headphones.keys()].join(" ");
      if ([...store.shop.headphones.keys()].join(" ") !== rebuilt)
        broken.push(`after kill ${kill}: state is not a rebuild`);
    } finally {
      await store.close();
    }
    tell?.(kill + 1);
  }
  const store = await openStore(folder, { write: false });
  const there = new Set(store.evidence().map(({ id }) => id));
  await store.close();
  const wholly = ({ ids }: Written) => ids.every((id) => there.has(id));
  const partly = ({ ids }: Written) => ids.some((id) => there.has(id)) && !ids.every((id) => there.has(id));
  const cut = all.filter(({ state }) => state !== "acknowledged");
  const sound = all.filter(({ state }) => state === "acknowledged");
  return {
    kills,
    duringWrite,
    insideWrite,
    cutAfterCommit: cut.filter(wholly).length,
    cutBeforeCommit: cut.filter(({ ids }) => !ids.some((id) => there.has(id))).length,
    acknowledged: sound.length,
    lost: sound.filter((one) => !wholly(one)).map(({ ids }) => ids[0]!),
    torn: all.filter(partly).map(({ ids }) => ids[0]!),
    broken,
  };
}

/** One client: write after write until the server is gone. */
async function writeOn(address: string, name: string, most: number, all: Written[]): Promise<void> {
  const agent = new Agent({ keepAlive: true });
  try {
    for (let i = 0; ; i += 1) {
      const ids = Array.from({ length: 1 + (i % most) }, (_, k) => `${name}-${i}-${k}`);
      const written: Written = { ids, state: "under way" };
      all.push(written);
      try {
        const said = await handIn(address, agent, ids, () => {
          written.state = "in hand";
        });
        if (said !== ids.length) throw new Error(`not taken: ${said}`);
        written.state = "acknowledged";
      } catch {
        written.state = "cut";
        return;
      }
    }
  } finally {
    agent.destroy();
  }
}

/**
 * Hands entries in, waiting for the server to say that it has the request before the entries follow.
 *
 * @param taken  called once the entries are on their way to a server that has said so
 * @returns how many were acknowledged
 */
function handIn(address: string, agent: Agent, ids: readonly string[], taken: () => void): Promise<number> {
  const body = JSON.stringify({
    entries: ids.map((id) => ({
      id,
      at: "2026-03-01T12:00:00.000Z",
      by: "bench",
      kind: "headphone",
      headphone: id,
      impedance_ohm: 32,
      sensitivity_dB_per_V: 110,
    })),
  });
  return new Promise((done, failed) => {
    const headers = {
      "content-type": "application/json",
      "content-length": Buffer.byteLength(body),
      expect: "100-continue",
    };
    const asked = request(`${address}/api/evidence`, { method: "POST", agent, headers }, (response) => {
      let text = "";
      response.on("data", (bytes: Buffer) => {
        text += bytes;
      });
      response.on("error", failed);
      response.on("close", () => failed(new Error("cut off")));
      response.on("end", () => {
        try {
          const said = JSON.parse(text) as { entries?: readonly unknown[] };
          if (response.statusCode === 200 && said.entries) done(said.entries.length);
          else failed(new Error(`answered ${response.statusCode}: ${text}`));
        } catch (fault) {
          failed(fault as Error);
        }
      });
    });
    asked.on("error", failed);
    asked.on("continue", () => asked.end(body, taken));
    asked.flushHeaders();
  });
}

function started(folder: string): Promise<{ server: ChildProcess; address: string }> {
  const server = spawn(command, ["serve", "--data", folder, "--port", "0", "--no-backup"], {
    cwd: root,
    stdio: ["ignore", "pipe", "pipe"],
  });
  return new Promise((resolve, reject) => {
    let said = "";
    const hear = (bytes: Buffer) => {
      said += bytes;
      const address = said.match(/open at (http:\S+)/)?.[1];
      if (address !== undefined) resolve({ server, address });
    };
    server.stdout.on("data", hear);
    server.stderr.on("data", hear);
    server.on("exit", (status) => reject(new Error(`the server ended with ${status}: ${said}`)));
  });
}

function killed(server: ChildProcess): Promise<void> {
  return new Promise((gone) => {
    server.removeAllListeners("exit");
    server.once("exit", () => gone());
    server.kill("SIGKILL");
  });
}
