import type { FastifyReply, FastifyRequest } from "fastify";
import type { Standing } from "../workshop/standingAnswers.ts";
import { type Soon, soon } from "../workshop/timber/soon.ts";

/**
 * Whether whoever asks takes an answer that stood a moment ago rather than wait for the one that holds: a page, which
 * says so and asks again. Nobody else is ever given one.
 */
export function takesOlder({ headers }: Pick<FastifyRequest, "headers">): boolean {
  return /\bmax-stale\b/.test(headers["cache-control"] ?? "");
}

/** The answer, with the moment that it is of where it does not hold any more. */
export function told<T>(reply: FastifyReply, { answer, asOf }: Standing<T>): T {
  if (asOf !== undefined) reply.header("as-of", asOf);
  return answer;
}

/** The same of an answer that is asked for again when it is ready, where none is known yet. */
export async function soonTold<T>(reply: FastifyReply, standing: Promise<Standing<T>>): Promise<Soon<T>> {
  const { ready } = await soon(standing);
  return ready ? { ready: told(reply, ready) } : {};
}
