import { timingSafeEqual } from "node:crypto";
import cookie from "@fastify/cookie";
import rateLimit from "@fastify/rate-limit";
import type { FastifyInstance, FastifyRequest } from "fastify";
import { isEnough } from "../../claims/index.ts";
import { NotLetIn, type PeopleDesk } from "../../workshop/people/desk.ts";
import { untilGone } from "../untilGone.ts";
import { type Acting, stranger } from "./acting.ts";
import { tokenOf } from "./cookie.ts";
import { type Door, isFromHere, isLoopbackName, networkOf } from "./door.ts";
import { acts, heavy, type Need, needOf, routeName } from "./needs.ts";
import { underOwnName } from "./ownName.ts";
import { refuse } from "./refusal.ts";
import { Turns } from "./turns.ts";

export interface GateOptions {
  readonly people: PeopleDesk;
  readonly door: Door;
}

declare module "fastify" {
  interface FastifyInstance {
    /** Every route as the server was told of it. */
    everyRoute: readonly { readonly method: string; readonly url: string }[];
  }
}

/** Each person has two long computations under way and a few more in line. */
const atOnce = 2;
const mostWaiting = 12;

/** Asks of every request who is behind it, whether they may, and that they act under their own name. */
export async function addGate(app: FastifyInstance, { people, door }: GateOptions): Promise<void> {
  await app.register(cookie);
  app.decorateRequest("acting");
  const everyRoute: { method: string; url: string }[] = [];
  app.decorate("everyRoute", everyRoute);
  app.addHook("onRoute", ({ method, url }) => {
    for (const one of [method].flat()) everyRoute.push({ method: one, url });
  });
  const turns = new Turns(atOnce, mostWaiting);

  app.addHook("onRequest", async (request, reply) => {
    request.acting = await whoActs(request, people, door);
    const { acting } = request;
    const need = needFor(request);
    if (need === "open" || acting.kind === "anybody" || acting.kind === "local") return;
    if (acting.kind === "stranger")
      return refuse(reply, 401, "nobody is signed in here; people of this workshop only; sign in and do it again");
    if (!isEnough(acting.signedIn, need)) {
      const message = `you may ${acting.signedIn.may}; this takes the right ${need}; ask somebody who has it`;
      return refuse(reply, 403, message);
    }
    // A browser names the page that sends; a write that only carries the cookie comes from nowhere we know.
    if (isWriting(request) && request.headers.origin === undefined) {
      return refuse(
        reply,
        403,
        "a write from no page; only Stillglow's own page may write; open the page of this server",
      );
    }
  });

  if (door.isExposed) {
    await app.register(rateLimit, {
      max: door.strangersPerMinute ?? 600,
      timeWindow: "1 minute",
      keyGenerator: (request) => networkOf(request.ip),
      allowList: (request) => request.acting.kind !== "stranger",
      errorResponseBuilder: (_request, { ttl }) =>
        Object.assign(new Error(`too many requests from there; try again in ${Math.ceil(ttl / 1000)} s`), {
          statusCode: 429,
        }),
    });
  }

  app.addHook("preHandler", async (request, reply) => {
    const { acting } = request;
    const route = routeName(request.method, request.routeOptions.url ?? "");
    if (acting.kind !== "person") return;
    if (isWriting(request) && !route.startsWith("POST /api/calc/") && !route.includes(" /api/people")) {
      const owned = underOwnName(request.body, acting.signedIn, acts.has(route));
      if (!owned.ok) return refuse(reply, owned.status, owned.message, owned.path);
      request.body = owned.body;
    }
    if (!heavy.has(route)) return;
    const end = await turns.take(acting.signedIn.person, untilGone(reply));
    if (end === undefined) {
      const message = `${atOnce} computations of yours are under way and ${mostWaiting} wait; wait for one of them`;
      return refuse(reply.header("retry-after", "10"), 429, message);
    }
    reply.raw.once("close", end);
  });

  app.addHook("onSend", async (request, reply) => {
    const isPrivate = people.arePresent && request.url.startsWith("/api/");
    if (isPrivate && !reply.hasHeader("cache-control")) reply.header("cache-control", "no-store");
  });
}

async function whoActs(request: FastifyRequest, people: PeopleDesk, door: Door): Promise<Acting> {
  if (isLocalCommand(request, door)) return { kind: "local" };
  if (!people.arePresent) return door.isExposed ? stranger : { kind: "anybody" };
  const token = tokenOf(request, door);
  // A page left open listens on and fetches what is new; that alone keeps nobody signed in.
  const { accept = "", "x-unattended": unattended } = request.headers;
  const isUse = !accept.includes("text/event-stream") && unattended === undefined;
  const found = token === undefined ? undefined : await people.signedIn(token, isUse);
  if (!found) return stranger;
  const { token_sha256, ...signedIn } = found;
  return { kind: "person", signedIn, token_sha256 };
}

/** Whoever can read the token in the data folder could also open the folder itself. */
function isLocalCommand(request: FastifyRequest, { localToken }: Door): boolean {
  const given = /^Bearer ([\w-]+)$/.exec(request.headers.authorization ?? "")?.[1];
  if (given === undefined || localToken === undefined) return false;
  if (!isFromHere(request.socket.remoteAddress) || !isLoopbackName(request.headers.host ?? "")) return false;
  const [a, b] = [Buffer.from(given), Buffer.from(localToken)];
  return a.length === b.length && timingSafeEqual(a, b);
}

function needFor(request: FastifyRequest): Need {
  const { url } = request.routeOptions;
  // Where there is nothing, the page answers; of the API not even that much is told to a stranger.
  if (url === undefined) return request.url.startsWith("/api") ? "look" : "open";
  return needOf(routeName(request.method, url));
}

const isWriting = ({ method }: FastifyRequest) => method !== "GET" && method !== "HEAD";

/** What turns a fault at the door into an answer. */
export function doorFault(fault: unknown): { readonly status: number; readonly wait_s?: number } | undefined {
  if (fault instanceof NotLetIn) {
    return { status: fault.statusCode, ...(fault.wait_s !== undefined && { wait_s: fault.wait_s }) };
  }
  return undefined;
}
