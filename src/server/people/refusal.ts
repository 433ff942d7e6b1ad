import type { FastifyReply } from "fastify";

/** Turns a request away in the words that every error has. */
export function refuse(reply: FastifyReply, status: number, message: string, path = ""): FastifyReply {
  return reply.code(status).send({ error: { path, message } });
}
