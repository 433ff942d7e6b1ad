import { describe, expect, test } from "vitest";
import { rights } from "../../claims/index.ts";
import { peopledShop, type Who } from "../testing/peopledShop.ts";
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
      expect((await send("stillglow=" + "x".repeat(43))).statusCode, `${method} ${url} with a made-up one`).toBe(401);
      const below = rights[rights.indexOf(need) - 1]!;
      const who = least[below];
      if (who) expect((await send(cookies.get(who))).statusCode, `${method} ${url} as ${who}`).toBe(403);
      refusals += who ? 3 : 2;
    }
    expect(refusals).toBeGreaterThan(120);
  });
});
