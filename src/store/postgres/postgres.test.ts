import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { connect, createServer, type Socket } from "node:net";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, onTestFinished, test, vi } from "vitest";
import { Book } from "../../claims/testing/smallShop.ts";
import { restoreBackup, takeBackup } from "../backup.ts";
import { moveIntoDatabase, moveIntoFolder } from "../move.ts";
import { openStore, type Store } from "../store.ts";
import { StoreInUse } from "../storeErrors.ts";
import { headphone, noon } from "../testing/entries.ts";
import { freshFolder, openFor } from "../testing/folder.ts";
import { freshDatabase, freshPlace, openAt, tablesAt } from "../testing/places.ts";
import {
  type Cluster,
  makeCluster,
  makeDatabase,
  password,
  removeCluster,
  startCluster,
  stopCluster,
} from "../testing/postgres.ts";

/** A way to work on a database behind the store's back. */
async function raw<T>(database: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: database });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}
const run = (database: string, sql: string) => raw(database, (client) => client.query(sql));

async function chainOfFive() {
  const at = await freshPlace("PostgreSQL");
  const store = await openAt(at);
  for (const name of ["a", "b", "c", "d", "e"]) await store.append([headphone(name)]);
  return { store, database: at.database! };
}

test("an erasure waits for whoever still reads as of before, so that no file keeps what was erased", async () => {
  const at = await freshPlace("PostgreSQL");
  const store = await openAt(at);
  await store.customers.put({ customer: "c1", name: "Somebody Unmistakable", address: "Far Away 1" });
  await raw(at.database!, async (reader) => {
    await reader.query("BEGIN ISOLATION LEVEL REPEATABLE READ");
    expect((await reader.query("SELECT * FROM customer")).rows).toHaveLength(1);
    let isForgotten = false;
    const forgotten = store.customers.forget("c1").then(() => {
      isForgotten = true;
    });
    await pause(500);
    expect(isForgotten).toBe(false);
    await reader.query("COMMIT");
    await forgotten;
  });
  await store.close();
  expect((await tablesAt(at)).includes("Unmistakable")).toBe(false);
});

test("an erasure that a reader holds up for too long says so, and done again leaves nothing", async () => {
  const at = await freshPlace("PostgreSQL");
  const store = await openAt(at);
  await store.customers.put({ customer: "c1", name: "Somebody Unmistakable", address: "Far Away 1" });
  await raw(at.database!, async (reader) => {
    await reader.query("BEGIN ISOLATION LEVEL REPEATABLE READ");
    await reader.query("SELECT * FROM customer");
    const refused = await store.customers.forget("c1").catch((fault: unknown) => fault);
    expect(refused).toBeInstanceOf(StoreInUse);
    expect((refused as Error).message).toMatch(/another program reads it; let that end, then erase again$/);
    await reader.query("COMMIT");
  });
  expect(await store.customers.get("c1")).toBeUndefined();
  await store.customers.forget("c1");
  await store.close();
  expect((await tablesAt(at)).includes("Unmistakable")).toBe(false);
}, 60_000);

describe("the guards of the database", () => {
  const like = "at, recorded_at, by, kind, unit, valve, instrument, body";
  test("refuse every change that is no growth at the end", async () => {
    const { store, database } = await chainOfFive();
    for (const sql of [
      "UPDATE evidence SET at = 'x' WHERE seq = 2",
      "DELETE FROM evidence WHERE seq = 5",
      "TRUNCATE evidence",
      "INSERT INTO evidence SELECT * FROM evidence WHERE seq = 5 ON CONFLICT (seq) DO UPDATE SET at = 'x'",
      `INSERT INTO evidence SELECT 7, 'new', ${like}, sha256, sha256 FROM evidence WHERE seq = 5`,
      `INSERT INTO evidence SELECT 6, 'new', ${like}, prev_sha256, sha256 FROM evidence WHERE seq = 5`,
      // Who replays what was written elsewhere is held to the same.
      "SET session_replication_role = replica; DELETE FROM evidence",
    ]) {
      await expect(run(database, sql)).rejects.toThrow(/append-only/);
    }
    await expect(
      run(database, `INSERT INTO evidence SELECT 6, id, ${like}, sha256, sha256 FROM evidence WHERE seq = 5`),
    ).rejects.toThrow(/unique/);
    expect(await store.verify()).toMatchObject({ ok: true, entries: 5 });
  });

  test.each([
    ["an edited body", "UPDATE evidence SET body = replace(body, '110', '111') WHERE seq = 3", 3, "edited"],
    ["a row taken out", "DELETE FROM evidence WHERE seq = 2", 3, "entry 2 is missing"],
    ["a tail cut off", "DELETE FROM evidence WHERE seq > 3", 3, "tail was cut"],
  ])("taken away, verification names %s", async (_, sql, seq, problem) => {
    const { store, database } = await chainOfFive();
    const head = store.head();
    await run(database, `ALTER TABLE evidence DISABLE TRIGGER ALL; ${sql}`);
    expect(await store.verify(head)).toMatchObject({ ok: false, seq, problem: expect.stringContaining(problem) });
  });
});

describe("several servers beside one database", () => {
  test("write one chain, each seeing at once what the others wrote, and hear of it within a second", async () => {
    const { database } = await freshPlace("PostgreSQL");
    const stores = await Promise.all([1, 2, 3].map(() => openFor(freshFolder(), { database })));
    const heard = stores.map((store) => {
      const ids: string[] = [];
      store.subscribe((entries) => ids.push(...entries.map(({ id }) => id)));
      return ids;
    });
    const writes = stores.flatMap((store, s) =>
      Array.from({ length: 20 }, (_, i) =>
        store.append([headphone(`h${s}-${i}`), headphone(`g${s}-${i}`)]).then(async ([first]) => {
          const other = stores[(s + 1) % stores.length]!;
          await other.current();
          return other.shop.ledger.get(first!.id)?.seq === first!.seq;
        }),
      ),
    );
    expect(await Promise.all(writes)).toEqual(writes.map(() => true));
    await vi.waitFor(() => expect(heard.map((ids) => ids.length)).toEqual([120, 120, 120]), { timeout: 1000 });
    expect(new Set(stores.map((store) => store.head())).size).toBe(1);
    // Told once each, in the order of the chain, whoever wrote it.
    for (const ids of heard) expect(ids).toEqual(stores[0]!.evidence().map(({ id }) => id));
    expect(await stores[0]!.verify()).toMatchObject({ ok: true, entries: 120 });
  });

  test("refuse an id that another has just given, and take what rests on another's newest", async () => {
    const { database } = await freshPlace("PostgreSQL");
    const clock = () => "2026-05-01T00:00:00.000Z";
    const [one, two] = [
      await openFor(freshFolder(), { database, clock }),
      await openFor(freshFolder(), { database, clock }),
    ];
    await one.append([headphone("a", { id: "mine" })]);
    await expect(two.append([headphone("b", { id: "mine" })])).rejects.toThrow(
      expect.objectContaining({ name: "BadInput" }),
    );
    const book = Book.opened();
    const opened = book.entries.length;
    book.proveAll(1);
    const all = book.entries.map(({ id, at, by, body }) => ({ id, at, by, ...body }));
    await one.append(all.slice(0, opened));
    expect(await two.append(all.slice(opened))).toHaveLength(all.length - opened);
    expect(two.shop.units.has("0101")).toBe(true);
  });

  test("decide what must rest on the newest while nobody else can write", async () => {
    const { database } = await freshPlace("PostgreSQL");
    const [one, two] = [await openFor(freshFolder(), { database }), await openFor(freshFolder(), { database })];
    const counted = (store: Store) => store.append(() => [headphone(`after ${store.evidence().length}`)]);
    await Promise.all(Array.from({ length: 12 }, (_, i) => counted(i % 2 === 0 ? one : two)));
    await one.current();
    expect([...one.shop.headphones.keys()]).toEqual(Array.from({ length: 12 }, (_, i) => `after ${i}`));
  });

  test("have each other's recordings and photos, and refuse a changed one", async () => {
    const { database } = await freshPlace("PostgreSQL");
    const here = await openFor(freshFolder(), { database, clock: () => "2026-05-01T00:00:00.000Z" });
    const there = await openFor(freshFolder(), { database });
    // Larger than a piece, and no multiple of one.
    const bytes = Buffer.alloc(2_500_000, 7);
    const name = await here.putRecording(bytes);
    expect(() => there.recordingPath(name)).toThrow(expect.objectContaining({ name: "StoreMissing" }));
    expect(readFileSync(await there.bringRecording(name)).equals(bytes)).toBe(true);
    const photo = await there.putPhoto(Buffer.from([0xff, 0xd8]));
    expect(readFileSync(await here.bringPhoto(photo))).toEqual(Buffer.from([0xff, 0xd8]));
    await expect(here.bringRecording("f".repeat(64))).rejects.toThrow(
      expect.objectContaining({ name: "StoreMissing" }),
    );

    const book = Book.opened();
    const id = book.write(1, {
      kind: "recording",
      unit: "0101",
      recording: "r1",
      file_sha256: name,
      fullScale_Vpk: 1,
      channels: ["left"],
      supply: { source: "building", frequency_Hz: 50 },
      building_Hz: 50,
      valves: { V1: "N1", V2: "T1" },
      input: "shorted",
      instrument: "recorder",
    });
    await here.append(book.entries.map(({ id: own, at, by, body }) => ({ id: own, at, by, ...body })));
    expect(await there.verify()).toMatchObject({ ok: true, recordings: 1 });
    await run(database!, "UPDATE kept_piece SET bytes = '\\x00' WHERE piece = 1 AND kind = 'recordings'");
    expect(await there.verify()).toMatchObject({ ok: false, id, problem: expect.stringContaining("changed") });
    const third = await openFor(freshFolder(), { database });
    await expect(third.bringRecording(name)).rejects.toThrow(expect.objectContaining({ name: "StoreCorrupted" }));
    // Handed in again it is whole again.
    await here.putRecording(bytes);
    expect(await there.verify()).toMatchObject({ ok: true });
  });
});

describe("lost lines", () => {
  /** A door before the database that closes a line when a message comes by; before or after letting it through. */
  async function fickleDoor(database: string, sign: string, when: "before" | "after", times = 1) {
    let left = 0;
    let fell = 0;
    const sockets = new Set<Socket>();
    const { port } = new URL(database);
    const door = createServer((client) => {
      const server = connect(Number(port), "127.0.0.1");
      for (const socket of [client, server]) {
        sockets.add(socket);
        socket.on("error", () => undefined);
      }
      client.on("data", (bytes) => {
        const isSign = left > 0 && bytes.includes(sign);
        if (isSign) {
          left -= 1;
          fell += 1;
        }
        if (isSign && when === "before") {
          client.destroy();
          server.destroy();
          return;
        }
        server.write(bytes);
        if (isSign) client.destroy();
      });
      server.on("data", (bytes) => client.write(bytes));
      server.on("close", () => client.destroy());
      client.on("close", () => pause(200).then(() => server.destroy()));
    });
    await new Promise<void>((open) => door.listen(0, "127.0.0.1", open));
    onTestFinished(() => {
      for (const socket of sockets) socket.destroy();
      door.close();
    });
    const through = new URL(database);
    through.port = String((door.address() as { port: number }).port);
    return {
      database: through.href,
      arm: () => {
        left = times;
      },
      fell: () => fell,
    };
  }

  test.each([
    ["after its commit went out", "COMMIT", "after"],
    ["before its commit went out", "COMMIT", "before"],
    ["while its rows went out", 'insert into "evidence"', "before"],
  ] as const)(
    "a line lost %s: the entries are written once, and claimed once they are found",
    async (_, sign, when) => {
      const { database } = await freshPlace("PostgreSQL");
      const door = await fickleDoor(database!, sign, when, 2);
      const store = await openFor(freshFolder(), { database: door.database });
      await store.append([headphone("a")]);
      door.arm();
      const written = await store.append([headphone("b"), headphone("c")]);
      expect(door.fell()).toBeGreaterThan(0);
      expect(written.map(({ seq }) => seq)).toEqual([2, 3]);
      const direct = await openFor(freshFolder(), { database });
      expect(direct.evidence()).toEqual(store.evidence());
      expect(await direct.verify(store.head())).toMatchObject({ ok: true, entries: 3 });
    },
  );

  test("who stands still in the middle of writing does not hold the others up, and writes nothing later", async () => {
    const { database } = await freshPlace("PostgreSQL");
    const store = await openFor(freshFolder(), { database });
    await store.append([headphone("a")]);
    const frozen = new pg.Client({ connectionString: database });
    frozen.on("error", () => undefined);
    await frozen.connect();
    await frozen.query(
      "BEGIN; SET LOCAL idle_in_transaction_session_timeout = '300ms'; SELECT pg_advisory_xact_lock(7114170)",
    );
    await store.append([headphone("b")]);
    await expect(frozen.query("COMMIT")).rejects.toThrow();
    await frozen.end().catch(() => undefined);
    expect(store.evidence()).toHaveLength(2);
  });

  test("a page's line that was cut is taken up again, and what came meanwhile is told", async () => {
    const { database } = await freshPlace("PostgreSQL");
    const [here, there] = [await openFor(freshFolder(), { database }), await openFor(freshFolder(), { database })];
    const heard: string[] = [];
    there.subscribe((entries) => heard.push(...entries.map(({ id }) => id)));
    const cut = await run(
      database!,
      "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()",
    );
    expect(cut.rowCount).toBeGreaterThanOrEqual(2);
    await here.append([headphone("a")]);
    await vi.waitFor(() => expect(heard).toEqual(["e000001"]), { timeout: 3000 });
  });

  test("what is wrong is said without the password", async () => {
    const database = await freshDatabase();
    const wrong = (change: (url: URL) => void) => {
      const url = new URL(database);
      change(url);
      return openStore(freshFolder(), { database: url.href }).then(
        () => "opened",
        (fault: Error) => `${fault.name}: ${fault.message} ${String(fault.cause)}`,
      );
    };
    const said = [
      await wrong((url) => {
        url.pathname = "/nowhere";
      }),
      await wrong((url) => {
        url.username = "stranger";
      }),
      await wrong((url) => {
        url.protocol = "mysql:";
      }),
    ];
    expect(said[0]).toMatch(/StoreMissing.*no such database/);
    expect(said[1]).toMatch(/StoreReadOnly.*refuses this user or password/);
    expect(said[2]).toMatch(/BadInput.*postgres:\/\/user/);
    for (const words of said) expect(words).not.toContain(password);
  });
});

describe("the database killed while two servers write", () => {
  let cluster: Cluster;
  beforeAll(async () => {
    cluster = await makeCluster();
  });
  afterAll(() => removeCluster(cluster));

  test("every acknowledged entry is there, none twice, and both go on by themselves", async () => {
    const database = await makeDatabase(cluster);
    const stores = await Promise.all([1, 2].map(() => openFor(freshFolder(), { database })));
    const acknowledged: string[] = [];
    const unsure: string[] = [];
    let isOver = false;
    const writers = stores.map(async (store, s) => {
      for (let i = 0; !isOver; i += 1) {
        const id = `w${s}-${i}`;
        await store.append([headphone(id, { id }), headphone(`${id}b`, { id: `${id}b` })]).then(
          () => acknowledged.push(id, `${id}b`),
          () => unsure.push(id),
        );
      }
    });
    for (let kill = 0; kill < 3; kill += 1) {
      await pause(120 + 70 * kill);
      stopCluster(cluster, "immediate");
      startCluster(cluster);
    }
    await pause(300);
    // On a busy machine little may have been written between the kills.
    for (const end = Date.now() + 60_000; acknowledged.length <= 20 && Date.now() < end; ) await pause(50);
    isOver = true;
    await Promise.all(writers);
    await stores[0]!.current();
    const ids = stores[0]!.evidence().map(({ id }) => id);
    expect(acknowledged.length).toBeGreaterThan(20);
    expect(acknowledged.filter((id) => !ids.includes(id))).toEqual([]);
    expect(new Set(ids).size).toBe(ids.length);
    // All or none of each pair.
    expect(ids.filter((id) => !id.endsWith("b") && !ids.includes(`${id}b`))).toEqual([]);
    expect(await stores[0]!.verify()).toMatchObject({ ok: true, entries: ids.length });
  });
});

describe("copies and moves", () => {
  async function filled(store: Store) {
    await store.putRecording(Buffer.alloc(1_200_000, 3));
    await store.append([headphone("a"), headphone("b")]);
    await store.customers.put({ customer: "c1", name: "Somebody", address: "Somewhere 1" });
  }

  test("a copy of a database is a folder like any other copy, with the same chain", async () => {
    const at = await freshPlace("PostgreSQL");
    const store = await openAt(at);
    await filled(store);
    const into = join(freshFolder(), "copies");
    const taken = await takeBackup(at.folder, into, noon, { database: at.database });
    expect(taken).toMatchObject({ entries: 2, head: store.head() });
    const back = join(freshFolder(), "back");
    await restoreBackup(into, back);
    const restored = await openFor(back);
    expect(restored.evidence()).toEqual(store.evidence());
    expect(await restored.verify(store.head())).toMatchObject({ ok: true, entries: 2 });
    expect(await restored.customers.get("c1")).toMatchObject({ address: "Somewhere 1" });
    expect(taken.recordings).toHaveLength(1);
  });

  test("a folder moved into a database and back has the chain it had; what was left behind takes no more", async () => {
    const folder = freshFolder();
    writeFileSync(join(folder, "workshop.json"), '{"title":"On the move"}');
    const before = await openFor(folder);
    await filled(before);
    const head = before.head();
    await before.close();
    const database = await freshDatabase();
    expect(await moveIntoDatabase(folder, database, noon)).toMatchObject({ entries: 2, head });
    await expect(openStore(folder)).rejects.toThrow(
      /was moved into postgres:\/\/stillglow@127\.0\.0\.1:\d+\/.*--database/,
    );
    await expect(moveIntoDatabase(folder, database, noon)).rejects.toThrow(/no workshop/);

    const elsewhere = freshFolder();
    const between = await openFor(elsewhere, { database });
    expect(await between.about()).toEqual({ title: "On the move" });
    await between.append([headphone("c")]);
    const grown = between.head();
    const back = join(freshFolder(), "back");
    mkdirSync(back);
    expect(await moveIntoFolder(database, back, noon)).toMatchObject({ entries: 3, head: grown });
    // A server that still runs beside the database can't write past the folder.
    await expect(between.append([headphone("late")])).rejects.toThrow(
      expect.objectContaining({ name: "StoreReadOnly" }),
    );
    await expect(openStore(elsewhere, { database })).rejects.toThrow(/moved out of the database/);
    const after = await openFor(back);
    expect(await after.verify(head)).toMatchObject({ ok: true, entries: 3 });
    expect(await after.customers.get("c1")).toMatchObject({ name: "Somebody" });
    expect(await after.append([headphone("d")])).toHaveLength(1);
  });
});
