import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { FastifyInstance, InjectOptions, LightMyRequestResponse } from "fastify";
import { onTestFinished } from "vitest";
import { temporaryFolder } from "../../../tests/helpers.ts";
import { at, Book } from "../../claims/testing/smallShop.ts";
import { openStore } from "../../store/index.ts";
import type { Cost } from "../../workshop/people/passphrase.ts";
import { openWorkshop, type Workshop } from "../../workshop/workshop.ts";
import { type Door, loopbackDoor } from "../people/door.ts";
import { buildServer } from "../server.ts";

/** As little work as there can be: what is tested is not how long a passphrase takes. */
export const lightCost: Cost = { log2N: 4, r: 8, p: 1 };
export const passphrases = {
  holder: "a kettle on the harbour wall",
  releaser: "seven grey gulls in a row",
  "bench-2": "solder smells of pine trees",
  visitor: "only here to have a look",
} as const;
export type Who = keyof typeof passphrases;

export interface Peopled {
  readonly app: FastifyInstance;
  readonly workshop: Workshop;
  readonly folder: string;
  readonly clock: { now_ms: number };
  /** Signs in and returns the cookie. */
  signIn(who: Who): Promise<string>;
  ask(options: InjectOptions & { readonly as?: string | undefined }): Promise<LightMyRequestResponse>;
}

export const host = "127.0.0.1:4171";
export const origin = `http://${host}`;

/** A small shop with an owner, one who releases, one who measures and one who looks, behind its server. */
export async function peopledShop({
  door = loopbackDoor,
  people = true,
}: {
  readonly door?: Door;
  readonly people?: boolean;
} = {}): Promise<Peopled> {
  const folder = join(temporaryFolder(), "workshop");
  mkdirSync(folder);
  const store = await openStore(folder, { clock: () => at(29) });
  await store.append(Book.opened().entries.map(({ id, at: when, by, body }) => ({ id, at: when, by, ...body })));
  await store.customers.put({ customer: "c-7", name: "Somebody Unmistakable", address: "Longlost Lane 77" });
  await store.close();
  const clock = { now_ms: Date.parse("2027-01-04T09:00:00Z") };
  const workshop = await openWorkshop(folder, {
    write: true,
    people: { cost: lightCost, now_ms: () => clock.now_ms },
  });
  if (people) {
    const add = (person: Who, may: string) =>
      workshop.people.add(workshop.people.arePresent ? "holder" : undefined, {
        person,
        name: `Name of ${person}`,
        may,
        passphrase: passphrases[person],
      });
    await add("holder", "owner");
    await add("releaser", "release");
    await add("bench-2", "measure");
    await add("visitor", "look");
  }
  const app = await buildServer({ workshop, door });
  onTestFinished(async () => {
    await app.close();
    await workshop.close();
  });
  const ask: Peopled["ask"] = ({ as, headers, ...options }) =>
    app.inject({
      ...options,
      headers: Object.fromEntries(
        Object.entries({ host, origin, ...(as !== undefined && { cookie: as }), ...headers }).filter(
          ([, value]) => value !== undefined,
        ),
      ),
    });
  const signIn = async (who: Who) => {
    const answer = await ask({
      method: "POST",
      url: "/api/session",
      payload: { person: who, passphrase: passphrases[who] },
    });
    if (answer.statusCode !== 200) throw new Error(answer.body);
    return String(answer.headers["set-cookie"]).split(";")[0]!;
  };
  return { app, workshop, folder, clock, signIn, ask };
}
