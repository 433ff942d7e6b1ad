import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, onTestFinished, test } from "vitest";
import { rights } from "../../claims/index.ts";
import { at } from "../../claims/testing/smallShop.ts";
import { rememberCopies } from "../../store/copyPlaces.ts";
import { restoreBackup, type Store, takeBackup, verifyBackup } from "../../store/index.ts";
import { idle_ms, longest_ms } from "../../workshop/people/sessions.ts";
import type { ErasureView, PersonView } from "../../workshop/people/views.ts";
import { openWorkshop } from "../../workshop/workshop.ts";
import { host, lightCost, passphrases, peopledShop, type Who } from "../testing/peopledShop.ts";
import type { Door } from "./door.ts";
import { needs, routeName } from "./needs.ts";

const least: Readonly<Record<(typeof rights)[number], Who | undefined>> = {
  nothing: undefined,
  look: "visitor",
  measure: "bench-2",
  release: "releaser",
  owner: "holder",
};

describe("every route of the server", () => {
  test("says what it takes, and refuses strangers and whoever may too little", async () => {
    const { app, ask, signIn } = await peopledShop();
    await app.ready();
    const routes = app.everyRoute;
    expect(routes.length).toBeGreaterThan(60);
    expect(routes.map(({ method, url }) => routeName(method, url)).filter((name) => !(name in needs))).toEqual([]);
    // Entries for routes that are no more would hide a new one of the same name.
    const known = new Set(routes.map(({ method, url }) => routeName(method, url)));
    expect(Object.keys(needs).filter((name) => name !== "GET /*" && !known.has(name))).toEqual([]);

    const cookies = new Map<string, string>();
    for (const who of Object.values(least)) if (who) cookies.set(who, await signIn(who));
    let refusals = 0;
    for (const { method, url } of routes) {
      const need = needs[routeName(method, url)]!;
      if (need === "open") continue;
      const address = url.replaceAll(/:\w+/g, "x").replace("*", "x");
      const send = (as?: string) =>
        ask({ method: method as "GET", url: address, as, ...(method === "POST" && { payload: {} }) });
      expect((await send()).statusCode, `${method} ${url} without a session`).toBe(401);
      expect((await send(`stillglow=${"x".repeat(43)}`)).statusCode, `${method} ${url} with a made-up one`).toBe(401);
      const who = least[rights[rights.indexOf(need) - 1]!];
      if (who) expect((await send(cookies.get(who))).statusCode, `${method} ${url} as ${who}`).toBe(403);
      refusals += who ? 3 : 2;
    }
    expect(refusals).toBeGreaterThan(120);
  });

  test("is open, as a single machine has it, while nobody is entered", async () => {
    const { ask } = await peopledShop({ people: false });
    expect((await ask({ url: "/api/session" })).json()).toEqual({ people: false });
    expect((await ask({ url: "/api/workshop" })).statusCode).toBe(200);
    const entry = {
      at: at(20),
      by: "whoever",
      kind: "headphone",
      headphone: "h",
      impedance_ohm: 32,
      sensitivity_dB_per_V: 110,
    };
    const taken = await ask({ method: "POST", url: "/api/evidence", payload: { entries: [entry] } });
    expect(taken.json().entries[0].by).toBe("whoever");
  });

  test("is closed on the network while nobody is entered", async () => {
    const door: Door = { names: new Set(["bench.example"]), isExposed: true, https: "own" };
    const { ask } = await peopledShop({ people: false, door });
    expect((await ask({ url: "/api/workshop", headers: { host: "bench.example" } })).statusCode).toBe(401);
    expect((await ask({ url: "/api/workshop" })).statusCode).toBe(401);
  });
});

describe("signing in", () => {
  test("gives a cookie that no script reads and no other site sends, and says who may what", async () => {
    const { ask } = await peopledShop();
    const sent = { person: " bench-2 ", passphrase: passphrases["bench-2"] };
    const answer = await ask({ method: "POST", url: "/api/session", payload: sent });
    expect(answer.headers["set-cookie"]).toMatch(/^stillglow=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/);
    expect(answer.json()).toEqual({
      people: true,
      signedIn: { person: "bench-2", name: "Name of bench-2", may: "measure", answersForSafety: false },
      able: {
        measure: ["Name of holder", "Name of releaser", "Name of bench-2"],
        release: ["Name of holder", "Name of releaser"],
        owner: ["Name of holder"],
        safety: [],
      },
    });
    expect(answer.headers["cache-control"]).toBe("no-store");
  });

  test("over HTTPS gives one that only this host sends, and never without HTTPS", async () => {
    const door: Door = { names: new Set(["bench.example"]), isExposed: true, https: "own", insist_s: 60 };
    const { ask } = await peopledShop({ door });
    const answer = await ask({
      method: "POST",
      url: "/api/session",
      payload: { person: "visitor", passphrase: passphrases.visitor },
      headers: { host: "bench.example:4171", origin: "https://bench.example:4171" },
    });
    expect(answer.headers["set-cookie"]).toMatch(
      /^__Host-stillglow=[\w-]{43}; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    );
    expect(answer.headers["strict-transport-security"]).toBe("max-age=60");
    expect((await ask({ url: "/api/session" })).headers["strict-transport-security"]).toBeUndefined();
  });

  test("says the same of an unknown person and a wrong passphrase, and quotes neither", async () => {
    const { ask } = await peopledShop();
    const tried = (person: unknown, passphrase: unknown) =>
      ask({ method: "POST", url: "/api/session", payload: { person, passphrase } as object });
    const wrong = await tried("bench-2", "a wrong one altogether");
    const unknown = await tried("nobody-here", passphrases["bench-2"]);
    expect([wrong.statusCode, unknown.statusCode]).toEqual([401, 401]);
    expect(wrong.body).toBe(unknown.body);
    expect(wrong.body).not.toMatch(/a wrong one|bench-2/);
    expect(wrong.headers["set-cookie"]).toBeUndefined();
    for (const [person, passphrase] of [
      [{ $ne: null }, "x"],
      ["bench-2", { length: 20 }],
      [null, null],
      ["x".repeat(2000), "y".repeat(2000)],
    ]) {
      expect((await tried(person, passphrase)).statusCode).toBe(401);
    }
    expect((await tried("x", "y".repeat(10_000))).statusCode).toBe(413);
  });

  test("costs longer and longer when it goes wrong, for that person from there, and not for others", async () => {
    const { ask, clock } = await peopledShop();
    const tried = (person: string, passphrase: string, remoteAddress: string) =>
      ask({ method: "POST", url: "/api/session", payload: { person, passphrase }, remoteAddress });
    for (let i = 0; i < 5; i += 1) expect((await tried("holder", "wrong", "10.0.0.9")).statusCode).toBe(401);
    const late = await tried("holder", passphrases.holder, "10.0.0.9");
    expect(late.statusCode).toBe(429);
    expect(late.headers["retry-after"]).toBe("1");
    expect((await tried("holder", passphrases.holder, "10.0.0.10")).statusCode).toBe(200);
    clock.now_ms += 1000;
    expect((await tried("holder", "wrong", "10.0.0.9")).statusCode).toBe(401);
    clock.now_ms += 1500;
    expect((await tried("holder", passphrases.holder, "10.0.0.9")).statusCode).toBe(429);
    clock.now_ms += 500;
    expect((await tried("holder", passphrases.holder, "10.0.0.9")).statusCode).toBe(200);
    // Many at once are no way round it, nor many names from one place.
    const many = await Promise.all(Array.from({ length: 30 }, () => tried("visitor", "wrong", "10.0.0.11")));
    expect(many.filter(({ statusCode }) => statusCode === 401)).toHaveLength(5);
    let let401 = 0;
    for (let i = 0; i < 30; i += 1) if ((await tried(`p${i}`, "wrong", "10.0.0.12")).statusCode === 401) let401 += 1;
    expect(let401).toBe(20);
  });
});

test("strangers on the network may knock so often a minute, and people at work as often as they like", async () => {
  const door: Door = { names: new Set(["bench.example"]), isExposed: true, https: "own", strangersPerMinute: 6 };
  const { ask } = await peopledShop({ door });
  const from = { host: "bench.example", origin: "https://bench.example" };
  const payload = { person: "visitor", passphrase: passphrases.visitor };
  const signed = await ask({ method: "POST", url: "/api/session", headers: from, payload });
  const cookie = String(signed.headers["set-cookie"]).split(";")[0]!;
  const knock = (as?: string, remoteAddress = "127.0.0.1") =>
    ask({ url: "/api/session", headers: from, as, remoteAddress }).then(({ statusCode }) => statusCode);
  const knocks: number[] = [];
  for (let i = 0; i < 7; i += 1) knocks.push(await knock());
  expect(knocks.filter((status) => status === 429)).toHaveLength(2);
  expect(await knock(undefined, "10.0.0.20")).toBe(200);
  for (let i = 0; i < 10; i += 1) expect(await knock(cookie)).toBe(200);
});

describe("a session", () => {
  const looks = (ask: Awaited<ReturnType<typeof peopledShop>>["ask"], as: string) =>
    ask({ url: "/api/workshop", as }).then(({ statusCode }) => statusCode);

  test("ends by signing out, here or everywhere, and by a changed passphrase", async () => {
    const { ask, signIn } = await peopledShop();
    const [a, b, c] = [await signIn("bench-2"), await signIn("bench-2"), await signIn("bench-2")];
    const other = await signIn("visitor");
    await ask({ method: "DELETE", url: "/api/session", as: a });
    expect([await looks(ask, a), await looks(ask, b)]).toEqual([401, 200]);
    const change = (present: string) =>
      ask({
        method: "POST",
        url: "/api/session/passphrase",
        as: b,
        payload: { present, passphrase: "a fresh set of words" },
      });
    expect((await change("not the present one")).json().error.path).toBe("present");
    const changed = await change(passphrases["bench-2"]);
    expect(changed.statusCode).toBe(200);
    const fresh = String(changed.headers["set-cookie"]).split(";")[0]!;
    expect([await looks(ask, b), await looks(ask, c), await looks(ask, fresh)]).toEqual([401, 401, 200]);
    await ask({ method: "DELETE", url: "/api/sessions", as: fresh });
    expect([await looks(ask, fresh), await looks(ask, other)]).toEqual([401, 200]);
    const old = await ask({
      method: "POST",
      url: "/api/session",
      payload: { person: "bench-2", passphrase: passphrases["bench-2"] },
    });
    expect(old.statusCode).toBe(401);
  });

  test("ends after a working day without use, and after a week at the latest", async () => {
    const { ask, signIn, clock } = await peopledShop();
    const idle = await signIn("visitor");
    clock.now_ms += idle_ms + 1;
    expect(await looks(ask, idle)).toBe(401);
    // A page that fetches by itself while nobody is there is no use.
    const left = await signIn("visitor");
    for (const headers of [{ "x-unattended": "yes" }, { accept: "text/event-stream" }]) {
      clock.now_ms += idle_ms / 2;
      expect((await ask({ url: "/api/instruments", as: left, headers })).statusCode).toBe(200);
    }
    clock.now_ms += 1;
    expect(await looks(ask, left)).toBe(401);
    const used = await signIn("visitor");
    for (let gone = 0; gone + idle_ms / 2 < longest_ms; gone += idle_ms / 2) {
      clock.now_ms += idle_ms / 2;
      expect(await looks(ask, used)).toBe(200);
    }
    clock.now_ms += idle_ms / 2 + 1;
    expect(await looks(ask, used)).toBe(401);
  });

  test("is kept by its hash alone", async () => {
    const { signIn, folder } = await peopledShop();
    const token = (await signIn("visitor")).split("=")[1]!;
    const bytes = ["stillglow.db", "stillglow.db-wal"].map((file) => readFileSync(join(folder, file)));
    expect(bytes.some((one) => one.includes(token))).toBe(false);
    expect(bytes.some((one) => one.includes(passphrases.visitor))).toBe(false);
  });

  test("falls when its person may no longer come in, and shrinks with their right", async () => {
    const { ask, signIn } = await peopledShop();
    const holder = await signIn("holder");
    const bench = await signIn("bench-2");
    const change = (payload: object) => ask({ method: "POST", url: "/api/people/bench-2", as: holder, payload });
    const upload = () => ask({ method: "POST", url: "/api/waiting/x/aside", as: bench });
    expect((await upload()).statusCode).toBe(422);
    await change({ may: "look" });
    expect((await upload()).statusCode).toBe(403);
    await change({ may: "nothing" });
    expect(await looks(ask, bench)).toBe(401);
  });

  test("takes its stream of news with it", async () => {
    const { app, signIn, ask } = await peopledShop();
    const address = await app.listen({ host: "127.0.0.1", port: 0 });
    const cookie = await signIn("visitor");
    const news = await fetch(`${address}/api/events`, { headers: { cookie } });
    const reader = news.body!.getReader();
    expect(new TextDecoder().decode((await reader.read()).value)).toContain('"head"');
    await ask({ method: "DELETE", url: "/api/session", as: cookie });
    expect((await reader.read()).done).toBe(true);
    expect((await fetch(`${address}/api/events`, { headers: { cookie } })).status).toBe(401);
  });
});

describe("every act", () => {
  const reading = {
    at: at(20),
    kind: "reading",
    subject: { unit: "0101" },
    quantity: "ht_V",
    value: 200,
    doubt: 1,
    instrument: "meter",
  };
  const shop = async () => {
    const made = await peopledShop();
    const enter = async (who: Who, ...entries: object[]) =>
      made.ask({ method: "POST", url: "/api/evidence", as: await made.signIn(who), payload: { entries } });
    return { ...made, enter };
  };

  test("stands under whoever is signed in; another's name is refused, and nothing is written", async () => {
    const { enter, workshop } = await shop();
    const taken = await enter("bench-2", reading);
    expect(taken.json().entries[0].by).toBe("bench-2");
    const head = workshop.head();
    const forged = await enter("bench-2", reading, { ...reading, by: "holder" });
    expect(forged.statusCode).toBe(403);
    expect(forged.json().error).toMatchObject({ path: "entries[1].by" });
    expect(workshop.head()).toBe(head);
  });

  test("takes the right for it, entry by entry", async () => {
    const { enter } = await shop();
    const concession = {
      at: at(20),
      kind: "concession",
      unit: "0101",
      claim: "balance",
      reason: "as the customer wished",
    };
    const limits = {
      at: at(20),
      kind: "safety-limits",
      market: "inland",
      places: ["inland"],
      edition: "3",
      limits: [{ quantity: "bond_ohm", high: 0.2, source: "clause 5", seen: "memory" }],
    };
    const intruder = { at: at(20), kind: "person", person: "bench-2", may: "owner" };
    expect((await enter("visitor", reading)).statusCode).toBe(403);
    for (const entry of [concession, limits, intruder]) {
      const refused = await enter("bench-2", reading, entry);
      expect(refused.statusCode, entry.kind).toBe(403);
      expect(refused.json().error.path).toBe("entries[1].kind");
    }
    expect((await enter("holder", concession)).statusCode).toBe(200);
    expect((await enter("holder", limits)).json().error.message).toMatch(/licensed person who answers/);
  });

  test("of a release is the releaser's, and a measurer's is refused before anything is looked at", async () => {
    const { ask, signIn, workshop } = await shop();
    const head = workshop.head();
    const release = async (who: Who, payload?: object) =>
      ask({ method: "POST", url: "/api/units/0101/release", as: await signIn(who), ...(payload && { payload }) });
    expect((await release("bench-2", {})).statusCode).toBe(403);
    expect((await release("releaser", { by: "holder" })).json().error.path).toBe("by");
    const asked = await release("releaser", {});
    expect(asked.json()).toMatchObject({ granted: false });
    expect(workshop.head()).toBe(head);
  });

  test("of entering people is an owner's, who can't lock everybody out", async () => {
    const { ask, signIn } = await shop();
    const holder = await signIn("holder");
    const post = (url: string, payload: object) => ask({ method: "POST", url, as: holder, payload });
    const fresh = { person: "wood", name: "Whoever planes", may: "measure", passphrase: "plane, saw, chisel, glue" };
    expect((await post("/api/people", { ...fresh, passphrase: "wood wood wood wood" })).json().error.path).toBe(
      "passphrase",
    );
    expect((await post("/api/people", { ...fresh, passphrase: "short" })).json().error.message).not.toContain("short");
    expect((await post("/api/people", { ...fresh, by: "releaser" })).json().error.path).toBe("by");
    expect((await post("/api/people", fresh)).json().people.map(({ person }: { person: string }) => person)).toContain(
      "wood",
    );
    expect((await post("/api/people", fresh)).json().error.path).toBe("person");
    expect((await post("/api/people/holder", { may: "release" })).json().error.message).toMatch(/the only owner/);
    expect((await post("/api/people/nobody", { may: "look" })).statusCode).toBe(422);
  });
});

describe("a command of this machine", () => {
  const door: Door = { names: new Set(["bench.example"]), isExposed: true, https: "own", localToken: "t".repeat(43) };
  const headers = { authorization: `Bearer ${"t".repeat(43)}`, host, origin: undefined };

  test("acts by the token of the data folder, from this machine alone, under a person who may", async () => {
    const { ask } = await peopledShop({ door });
    const list = (more: object, remoteAddress = "127.0.0.1") =>
      ask({ url: "/api/people", headers: { ...headers, ...more } as never, remoteAddress }).then(
        (one) => one.statusCode,
      );
    expect(await list({})).toBe(200);
    expect(await list({ authorization: `Bearer ${"u".repeat(43)}` })).toBe(401);
    expect(await list({}, "192.168.1.20")).toBe(401);
    expect(await list({ host: "bench.example" })).toBe(401);
    const entry = { at: at(20), kind: "headphone", headphone: "h", impedance_ohm: 32, sensitivity_dB_per_V: 110 };
    const enter = (by: string) =>
      ask({
        method: "POST",
        url: "/api/evidence",
        headers: headers as never,
        payload: { entries: [{ ...entry, by }] },
      });
    expect((await enter("bench-2")).json().entries[0].by).toBe("bench-2");
    expect((await enter("bench technician")).json().error).toMatchObject({ path: "entries[0].by" });
  });
});

describe("a foreign page", () => {
  test("can't write, whatever it borrows, nor a name that merely leads here", async () => {
    const door: Door = { names: new Set(["bench.example"]), isExposed: true, https: "own" };
    const { ask } = await peopledShop({ door });
    const from = { host: "bench.example:4171", origin: "https://bench.example:4171" };
    const signed = await ask({
      method: "POST",
      url: "/api/session",
      headers: from,
      payload: { person: "holder", passphrase: passphrases.holder },
    });
    const cookie = String(signed.headers["set-cookie"]).split(";")[0]!;
    const write = (more: Record<string, string | undefined>) =>
      ask({
        method: "POST",
        url: "/api/evidence",
        as: cookie,
        headers: { ...from, ...more } as never,
        payload: { entries: [] },
      }).then(({ statusCode }) => statusCode);
    expect(await write({})).toBe(200);
    expect(await write({ origin: "https://elsewhere.example" })).toBe(403);
    expect(await write({ origin: "http://bench.example:4171" })).toBe(403);
    expect(await write({ origin: "https://bench.example" })).toBe(403);
    expect(await write({ origin: "https://bench.example:4171.elsewhere.example" })).toBe(403);
    expect(await write({ origin: "null" })).toBe(403);
    expect(await write({ origin: undefined })).toBe(403);
    expect(await write({ "sec-fetch-site": "same-site" })).toBe(403);
    expect(await write({ host: "rebound.example:4171", origin: "https://rebound.example:4171" })).toBe(403);
    expect(await write({ host: "bench.example.elsewhere.example" })).toBe(403);
    expect(await write({ host: "" })).toBe(403);
  });

  test("can't frame this one or run in it, and no answer is taken for what it is not", async () => {
    const { ask } = await peopledShop();
    const { headers } = await ask({ url: "/api/session" });
    expect(headers["content-security-policy"]).toContain("frame-ancestors 'none'");
    expect(headers["content-security-policy"]).not.toContain("unsafe");
    expect(headers).toMatchObject({
      "x-content-type-options": "nosniff",
      "referrer-policy": "no-referrer",
      "cross-origin-opener-policy": "same-origin",
      "cross-origin-resource-policy": "same-origin",
    });
  });
});

describe("no path leads out of the data folder", () => {
  const hostile = [
    "../../../../etc/passwd",
    "..%2f..%2f..%2fsecret.txt",
    "%2e%2e%2f%2e%2e%2fsecret.txt",
    "..%5c..%5csecret.txt",
    "%2fetc%2fpasswd",
    "local.token",
    "..%2flocal.token",
    "https%2fkey.pem",
    "..%2fhttps%2fkey.pem",
    "stillglow.db",
    "..%2fstillglow.db",
    "x%00.wav",
    "%c0%ae%c0%ae%2fsecret.txt",
    "a".repeat(300),
    "__proto__",
    "constructor",
  ];

  test("by any part of an address, in a query, or in a name handed in", async () => {
    const { app, ask, signIn, folder } = await peopledShop();
    await app.ready();
    const secret = "unmistakable-secret-of-this-test";
    mkdirSync(join(folder, "https"));
    for (const path of ["local.token", "https/key.pem", "../secret.txt"]) writeFileSync(join(folder, path), secret);
    const holder = await signIn("holder");
    const told = new Map<number, number>();
    const paths = app.everyRoute.filter(({ method, url }) => method !== "HEAD" && /[:*]/.test(url));
    expect(paths.length).toBeGreaterThan(25);
    for (const [i, { method, url }] of paths.entries()) {
      // Each address meets some, and each of these many addresses.
      for (const part of hostile.filter((_, k) => (k + i) % 4 === 0)) {
        const address = url.replaceAll(/:\w+/g, part).replace("*", part);
        const payload = method === "POST" ? { payload: { name: "x", address: "y" } } : {};
        const answer = await ask({ method: method as "GET", url: address, as: holder, ...payload });
        expect(answer.body, `${method} ${address}`).not.toContain(secret);
        expect(answer.body, `${method} ${address}`).not.toMatch(/root:x:|SQLite format|\n\s+at .*\.ts/);
        expect(answer.statusCode, `${method} ${address}: ${answer.body.slice(0, 200)}`).not.toBe(500);
        told.set(answer.statusCode, (told.get(answer.statusCode) ?? 0) + 1);
      }
    }
    // Refusals by what is asked for (422, 404, 400) show that addresses reached what answers them.
    expect((told.get(422) ?? 0) + (told.get(404) ?? 0)).toBeGreaterThan(100);
    for (const band of hostile) {
      const query = `/api/units/0101/recordings/x/spectrum?channel=${band}&band=${band}`;
      expect((await ask({ url: query, as: holder })).body).not.toContain(secret);
      expect((await ask({ url: `/api/labels.pdf?codes=${band}`, as: holder })).body).not.toContain(secret);
    }
    for (const recording of ["../secret.txt", join(folder, "local.token"), "local.token"]) {
      const answer = await ask({
        method: "POST",
        url: "/api/calc/bench.tone",
        as: holder,
        payload: { recording, fullScale_Vpk: 1 },
      });
      expect(answer.statusCode).toBe(422);
      expect(answer.body).not.toContain(secret);
    }
  });
});

describe("passphrases", () => {
  test("are kept anew at a higher cost when their person comes next", async () => {
    const { workshop, ask } = await peopledShop();
    const { PeopleDesk } = await import("../../workshop/people/desk.ts");
    const { store } = workshop as unknown as {
      store: ConstructorParameters<typeof PeopleDesk>[0]["store"] & { shop: never };
    };
    const desk = new PeopleDesk({
      store,
      shop: () => store.shop,
      now: () => workshop.now,
      enter: (entries) => workshop.enter(entries),
      cost: { ...lightCost, log2N: 6 },
    });
    const secret = async () =>
      (
        await store.engine.all(
          (
            await import("../../store/tables.ts")
          ).build
            .selectFrom("person")
            .selectAll()
            .where("person", "=", "visitor"),
        )
      )[0]!.secret;
    expect(await secret()).toMatch(/^scrypt\$4\$8\$1\$/);
    await desk.signIn("visitor", passphrases.visitor, "here");
    expect(await secret()).toMatch(/^scrypt\$6\$8\$1\$/);
    const still = await ask({
      method: "POST",
      url: "/api/session",
      payload: { person: "visitor", passphrase: passphrases.visitor },
    });
    expect(still.statusCode).toBe(200);
  });
});

test("the news of a workshop that lets people in ends for whoever listened without signing in", async () => {
  const { app, workshop } = await peopledShop({ people: false });
  const address = await app.listen({ host: "127.0.0.1", port: 0 });
  const news = await fetch(`${address}/api/events`);
  onTestFinished(() => news.body!.cancel().catch(() => undefined));
  const reader = news.body!.getReader();
  await reader.read();
  await workshop.people.add(undefined, {
    person: "holder",
    name: "Holder",
    may: "owner",
    passphrase: passphrases.holder,
  });
  expect((await reader.read()).done).toBe(true);
});

describe("erasure on request", () => {
  /** Every file below a folder that holds the words, as bytes. */
  const holding = (folder: string, words: string): readonly string[] =>
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
      .filter((file) => readFileSync(file).includes(words))
      .map((file) => relative(folder, file));

  const shop = async () => {
    const made = await peopledShop();
    const copies = `${made.folder}-backups`;
    const copy = await takeBackup(made.folder, copies, "2027-01-04T10:00:00Z");
    const elsewhere = join(made.folder, "..", "other-disk");
    const second = await takeBackup(made.folder, elsewhere, "2027-01-05T10:00:00Z");
    rememberCopies(made.folder, elsewhere);
    const holder = await made.signIn("holder");
    const erase = async (url: string, payload: object) =>
      (await made.ask({ method: "POST", url, as: holder, payload })).json() as ErasureView;
    return { ...made, copies, copy, elsewhere, second, holder, erase };
  };

  test("leaves neither file, log nor copies with a customer's name and address, and the chain as it was", async () => {
    const { ask, erase, holder, folder, copies, copy, elsewhere, second, workshop } = await shop();
    const words = ["Somebody Unmistakable", "Longlost Lane 77"];
    for (const word of words) {
      expect([folder, copies, elsewhere].map((place) => holding(place, word).length > 0)).toEqual([true, true, true]);
    }
    const head = workshop.head();
    const first = await erase("/api/customers/c-7/erase", {});
    expect(first.holding).toEqual([
      { folder: elsewhere, copy: second.name },
      { folder: copies, copy: copy.name },
    ]);
    expect(first.alsoKeep).toMatch(/other disks.*can't be seen from here/);
    for (const word of words) expect(holding(folder, word)).toEqual([]);
    const whole = await erase("/api/customers/c-7/erase", { copies: true });
    expect([whole.holding, whole.rewritten.length, whole.unread]).toEqual([[], 2, []]);
    for (const word of words) {
      for (const place of [folder, copies, elsewhere]) expect(holding(place, word), place).toEqual([]);
    }
    expect(workshop.head()).toBe(head);
    // What was noted of the copies still holds, and one of them serves again as it did.
    const read = await verifyBackup(copies);
    expect([read.head, read.entries]).toEqual([copy.head, copy.entries]);
    const again = join(folder, "..", "restored");
    await restoreBackup(elsewhere, again);
    const restored = await openWorkshop(again, { write: false, people: { cost: lightCost } });
    onTestFinished(() => restored.close());
    expect((await restored.customers.list()).map(({ customer, name }) => [customer, name])).toEqual([
      ["c1", undefined],
    ]);
    expect((await ask({ url: "/api/customers", as: holder })).json().customers).toEqual([
      { customer: "c1", orders: ["O1"] },
    ]);
  });

  test("takes a person's name away and leaves their acts under their id", async () => {
    const { ask, erase, signIn, holder, folder, copies, elsewhere, workshop } = await shop();
    const bench = await signIn("bench-2");
    const entry = { at: at(20), kind: "headphone", headphone: "h", impedance_ohm: 32, sensitivity_dB_per_V: 110 };
    await ask({ method: "POST", url: "/api/evidence", as: bench, payload: { entries: [entry] } });
    const told = await erase("/api/people/bench-2/erase", { copies: true });
    expect(told.rewritten).toHaveLength(2);
    for (const place of [folder, copies, elsewhere]) expect(holding(place, "Name of bench-2"), place).toEqual([]);
    expect((await ask({ url: "/api/workshop", as: bench })).statusCode).toBe(401);
    const gone = await ask({
      method: "POST",
      url: "/api/session",
      payload: { person: "bench-2", passphrase: passphrases["bench-2"] },
    });
    expect(gone.statusCode).toBe(401);
    const people = (await ask({ url: "/api/people", as: holder })).json().people as PersonView[];
    expect(people.find(({ person }) => person === "bench-2")).toMatchObject({
      name: "",
      may: "nothing",
      isErased: true,
    });
    const { store } = workshop as unknown as { store: Store };
    expect(store.evidence({ kind: "headphone" }).at(-1)!.by).toBe("bench-2");
    expect(await store.verify()).toMatchObject({ ok: true });
    // Nobody comes in under that id again, whoever they are.
    const anew = { person: "bench-2", name: "Another", may: "owner", passphrase: "words that are new here" };
    expect((await ask({ method: "POST", url: "/api/people", as: holder, payload: anew })).json().error.path).toBe(
      "person",
    );
  });
});
