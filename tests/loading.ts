import { Agent, type IncomingMessage, request } from "node:http";
import { setTimeout as pause } from "node:timers/promises";
import { randomStream } from "../src/maths/random.ts";
import type { ProbeCardView } from "../src/workshop/views.ts";
import type { Overview } from "../src/workshop/workshop.ts";

/**
 * Benches at work on one workshop: each writes a reading down, looks for it on the card that another server shows, reads
 * the overview now and then, and keeps a page open that is fetched anew whenever the ledger grows.
 */
export interface LoadOptions {
  /** Servers of one workshop; benches are dealt over them. */
  readonly addresses: readonly string[];
  readonly benches: number;
  readonly duration_s: number;
  /** Mean of the rest between two acts of a bench. */
  readonly rest_ms: number;
  readonly seed: string;
  /** So that readings of several loads on one workshop have ids of their own. */
  readonly name: string;
}

export interface Acknowledged {
  readonly id: string;
  readonly unit: string;
  readonly value: number;
}

export interface Loaded {
  /** Times from asking to the last byte of the answer. */
  readonly writes_ms: readonly number[];
  readonly reads_ms: readonly number[];
  /** Times from an answered write until a page at another server had heard of it. */
  readonly heard_ms: readonly number[];
  readonly acknowledged: readonly Acknowledged[];
  /** Answers other than 200, in words. */
  readonly failed: readonly string[];
  /** Readings that another server did not show though their writing had been answered. */
  readonly unseen: readonly string[];
}

interface Bench {
  readonly home: string;
  readonly other: string;
  readonly card: ProbeCardView;
  readonly point: string;
}

export async function loadBenches(options: LoadOptions): Promise<Loaded> {
  const { addresses, benches, duration_s, rest_ms, seed, name } = options;
  const agent = new Agent({ keepAlive: true, maxSockets: 2 * benches });
  const news = new Agent({ keepAlive: true });
  const chance = randomStream(`load ${seed}`);
  const writes_ms: number[] = [];
  const reads_ms: number[] = [];
  const heard_ms: number[] = [];
  const acknowledged: Acknowledged[] = [];
  const failed: string[] = [];
  const unseen: string[] = [];

  const ask = async <T>(
    times: number[] | undefined,
    address: string,
    path: string,
    body?: object,
  ): Promise<T | undefined> => {
    const begun = performance.now();
    try {
      const { status, text } = await asked(agent, address, path, body);
      if (status !== 200) {
        failed.push(`${path}: ${status} ${text.slice(0, 200)}`);
        return undefined;
      }
      times?.push(performance.now() - begun);
      return JSON.parse(text) as T;
    } catch (fault) {
      failed.push(`${path}: ${fault}`);
      return undefined;
    }
  };

  const open = (await ask<Overview>(undefined, addresses[0]!, "/api/workshop"))!;
  const units = open.units.filter(({ state }) => state !== "released").map(({ unit }) => unit);
  const stands = await Promise.all(
    Array.from({ length: benches }, async (_, i): Promise<Bench> => {
      const card = (await ask<ProbeCardView>(undefined, addresses[0]!, `/api/units/${units[i % units.length]}/probe`))!;
      return {
        home: addresses[i % addresses.length]!,
        other: addresses[(i + 1) % addresses.length]!,
        card,
        point: card.points[Math.floor(i / units.length) % card.points.length]!.point,
      };
    }),
  );
  const end = performance.now() + duration_s * 1000;
  const isOver = () => performance.now() >= end;
  const lines = stands.map((bench) =>
    listen(news, bench.home, async () => {
      if (isOver()) return;
      await ask(reads_ms, bench.home, `/api/units/${bench.card.unit}/probe`);
    }),
  );

  await Promise.all(
    stands.map(async ({ home, other, card, point }, i) => {
      const draw = chance.fork(String(i));
      const rest = () => pause(2 * rest_ms * draw.uniform());
      await rest();
      for (let n = 0, before: string | undefined; !isOver(); n += 1) {
        const id = `${name}-${i}-${n}`;
        const value = 100 + i + n / 100_000;
        const entry = {
          id,
          at: open.now,
          by: "bench",
          kind: "reading",
          subject: { unit: card.unit, point },
          quantity: "level_V",
          value,
          doubt: 0.5,
          instrument: card.instruments[0]!,
          conditions: { meter_Mohm: 10 },
          ...(before !== undefined && { supersedes: before }),
        };
        const written = await ask<{ entries: { seq: number }[] }>(writes_ms, home, "/api/evidence", {
          entries: [entry],
        });
        if (written) {
          acknowledged.push({ id, unit: card.unit, value });
          before = id;
          // A neighbour with its page at the other server: how soon does it hear?
          lines[(i + 1) % lines.length]!.await(written.entries[0]!.seq, heard_ms);
          const seen = await ask<ProbeCardView>(reads_ms, other, `/api/units/${card.unit}/probe`);
          const readings = seen?.points.flatMap((one) => one.readings) ?? [];
          // Another bench at the same point may have been read since.
          const here = readings.find(({ evidence }) => evidence === id);
          if (seen && here?.value !== value) unseen.push(id);
        }
        await rest();
        if (isOver()) break;
        await ask(reads_ms, home, n % 4 === 0 ? "/api/workshop" : `/api/units/${card.unit}/conditions`);
        await rest();
      }
    }),
  );
  // What a page had asked for is still answered before it closes.
  await Promise.all(lines.map((line) => line.close()));
  agent.destroy();
  news.destroy();
  return { writes_ms, reads_ms, heard_ms, acknowledged, failed, unseen };
}

/** The value below which a share of the times lies. */
export function quantile(times_ms: readonly number[], share: number): number {
  const sorted = times_ms.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

function asked(agent: Agent, address: string, path: string, body?: object): Promise<{ status: number; text: string }> {
  return new Promise((resolve, reject) => {
    const json = body === undefined ? undefined : JSON.stringify(body);
    const sent = request(
      new URL(path, address),
      {
        agent,
        method: json === undefined ? "GET" : "POST",
        headers:
          json === undefined ? {} : { "content-type": "application/json", "content-length": Buffer.byteLength(json) },
      },
      (answer: IncomingMessage) => {
        const parts: Buffer[] = [];
        answer.on("data", (part: Buffer) => parts.push(part));
        answer.on("end", () =>
          resolve({ status: answer.statusCode ?? 0, text: Buffer.concat(parts).toString("utf8") }),
        );
        answer.on("error", reject);
      },
    );
    sent.on("error", reject);
    sent.end(json);
  });
}

interface Line {
  /** Notes how long it takes from now until the page has heard of an entry. */
  await(seq: number, into: number[]): void;
  close(): Promise<void>;
}

/** A page's line: its word makes the page fetch anew, once at a time, as a page does. */
function listen(agent: Agent, address: string, onNews: () => Promise<void>): Line {
  let awaited: { readonly seq: number; readonly since: number; readonly into: number[] }[] = [];
  let known = 0;
  let isFetching = false;
  let isAgain = false;
  let fetching: Promise<void> | undefined;
  const heard = (seq: number) => {
    known = Math.max(known, seq);
    const now = performance.now();
    for (const one of awaited) if (one.seq <= known) one.into.push(now - one.since);
    awaited = awaited.filter((one) => one.seq > known);
  };
  const fetchAnew = async () => {
    isAgain = isFetching;
    if (isFetching) return;
    isFetching = true;
    fetching = (async () => {
      do {
        isAgain = false;
        await onNews();
      } while (isAgain);
      isFetching = false;
    })();
    await fetching;
  };
  const line = request(new URL("/api/events", address), { agent }, (answer) => {
    answer.on("data", (part: Buffer) => {
      for (const [, data] of part.toString("utf8").matchAll(/data: (.+)/g)) {
        heard((JSON.parse(data!) as { entries: number }).entries);
        void fetchAnew();
      }
    });
    answer.on("error", () => undefined);
  });
  line.on("error", () => undefined);
  line.end();
  return {
    await: (seq, into) => {
      if (seq <= known) into.push(0);
      else awaited.push({ seq, since: performance.now(), into });
    },
    close: async () => {
      line.destroy();
      await fetching;
    },
  };
}
