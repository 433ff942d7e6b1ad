import { mkdirSync } from "node:fs";
import { join } from "node:path";
import fastify from "fastify";
import Database from "libsql";
import { serverAt } from "../../tests/serverAt.ts";

/** What the machine itself allows: a server that hands out bytes and knows nothing, a table that takes a row. */
export interface Bare {
  /** Times of asking for so many bytes, in ms. */
  answering(bytes: number, times: number): Promise<readonly number[]>;
  /** Times of one insert each, flushed to disk as the ledger's are, in ms. */
  inserting(times: number): Promise<readonly number[]>;
  readonly emptyShop_ms: number;
  stop(): Promise<void>;
}

export async function bareReferences(room: string): Promise<Bare> {
  const empty = join(room, "empty");
  mkdirSync(empty);
  const begun = performance.now();
  const shop = await serverAt({ folder: empty });
  const emptyShop_ms = performance.now() - begun;
  await shop.stop();

  const app = fastify();
  app.get<{ Params: { bytes: string } }>("/:bytes", async ({ params }, reply) =>
    reply.type("application/json").send(`"${"x".repeat(Number(params.bytes))}"`),
  );
  const address = await app.listen({ host: "127.0.0.1", port: 0 });

  const database = new Database(join(room, "bare.db"));
  for (const pragma of ["journal_mode = WAL", "synchronous = FULL"]) database.exec(`PRAGMA ${pragma}`);
  database.exec("CREATE TABLE line (id INTEGER PRIMARY KEY, body TEXT)");
  const insert = database.prepare("INSERT INTO line (body) VALUES (?)");

  return {
    emptyShop_ms,
    answering: async (bytes, times) => {
      const taken: number[] = [];
      for (let i = 0; i < times; i++) {
        const asked = performance.now();
        await (await fetch(`${address}/${bytes}`)).arrayBuffer();
        taken.push(performance.now() - asked);
      }
      return taken;
    },
    inserting: async (times) =>
      Array.from({ length: times }, (_, i) => {
        const asked = performance.now();
        insert.run(JSON.stringify({ kind: "reading", value: i, words: "x".repeat(300) }));
        return performance.now() - asked;
      }),
    stop: async () => {
      database.close();
      await app.close();
    },
  };
}
