import type { FastifyInstance } from "fastify";
import { type Door, isKnownName, isOwnOrigin, loopbackDoor } from "./people/door.ts";
import { refuse } from "./people/refusal.ts";

/** Scripts, styles, pictures and news from this server alone, and no page of another may frame it. */
export const contentPolicy =
  "default-src 'self'; img-src 'self' data:; font-src 'self' data:; object-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'";

/**
 * What every answer and every request obeys: a strict content policy, and no writing from a foreign page.
 *
 * A page of another origin open in the same browser could send requests to this server, and a foreign name can be made
 * to point at its address; so the Host must be a name it is known by, and a writing request must come from its own
 * origin or from no page at all.
 */
export function addGuards(app: FastifyInstance, door: Door = loopbackDoor): void {
  app.addHook("onRequest", async (request, reply) => {
    const host = request.headers.host ?? "";
    if (!isKnownName(host, door)) {
      const known = [...door.names].join(", ");
      const names =
        known === "" ? "loopback names only; open it as http://127.0.0.1" : `${known}; open it as one of them`;
      return refuse(reply, 403, `${host.slice(0, 80)}; this server answers to ${names}`);
    }
    const { origin, "sec-fetch-site": site } = request.headers;
    const isWriting = request.method !== "GET" && request.method !== "HEAD";
    const isForeign = origin !== undefined && !isOwnOrigin(origin, host, door);
    if (isWriting && (isForeign || site === "cross-site" || site === "same-site")) {
      const from = (origin ?? "another site").slice(0, 80);
      return refuse(reply, 403, `${from}; only Stillglow's own page may write; open the page of this server`);
    }
  });
  app.addHook("onSend", async (request, reply) => {
    if (!reply.hasHeader("content-security-policy")) reply.header("content-security-policy", contentPolicy);
    reply.header("x-content-type-options", "nosniff");
    reply.header("referrer-policy", "no-referrer");
    reply.header("cross-origin-opener-policy", "same-origin");
    reply.header("cross-origin-resource-policy", "same-origin");
    reply.header("permissions-policy", "microphone=(self), camera=(), geolocation=(), payment=(), usb=()");
    if (door.insist_s !== undefined && !isLoopbackHost(request.headers.host)) {
      reply.header("strict-transport-security", `max-age=${door.insist_s}`);
    }
  });
}

/** Other programs of this machine answer at the same names without HTTPS. */
const isLoopbackHost = (host = "") => isKnownName(host, loopbackDoor);
