import type { FastifyInstance } from "fastify";

/**
 * What every answer and every request obeys: a strict content policy, and no writing from a foreign page.
 *
 * The server listens on loopback. A page of another origin open in the same browser could still send requests to
 * it, and a foreign name can be made to point at loopback; so the Host must be a loopback name and a writing
 * request must come from this origin or from no page at all.
 */
export function addGuards(app: FastifyInstance): void {
  app.addHook("onRequest", async (request, reply) => {
    const host = request.headers.host ?? "";
    if (!isLoopback(host)) {
      return reply.code(403).send({
        error: {
          path: "",
          message: `${host.slice(0, 80)}; this server answers to loopback names only; open it as http://127.0.0.1`,
        },
      });
    }
    const origin = request.headers.origin;
    if (request.method !== "GET" && request.method !== "HEAD" && origin !== undefined && origin !== `http://${host}`) {
      return reply.code(403).send({
        error: {
          path: "",
          message: `${origin.slice(0, 80)}; only Stillglow's own page may write; open the page of this server`,
        },
      });
    }
  });
  app.addHook("onSend", async (_request, reply) => {
    reply.header(
      "content-security-policy",
      "default-src 'self'; img-src 'self' data:; font-src 'self' data:; style-src 'self' 'unsafe-inline'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'",
    );
    reply.header("x-content-type-options", "nosniff");
    reply.header("referrer-policy", "no-referrer");
  });
}

function isLoopback(host: string): boolean {
  const name = host.replace(/:\d+$/, "");
  return name === "127.0.0.1" || name === "localhost" || name === "[::1]";
}
