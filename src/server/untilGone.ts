import type { FastifyReply } from "fastify";

/** Raised when whoever asked has gone before the answer came, so that nothing is computed for nobody. */
export function untilGone({ raw }: FastifyReply): AbortSignal {
  const gone = new AbortController();
  raw.on("close", () => {
    if (!raw.writableEnded) gone.abort();
  });
  return gone.signal;
}
