import type { FastifyReply, FastifyRequest } from "fastify";
import type { Door } from "./door.ts";

/** The prefix makes a browser refuse it from any other host, path or scheme. */
const nameOf = ({ https }: Door) => (https === "none" ? "stillglow" : "__Host-stillglow");

export function tokenOf(request: FastifyRequest, door: Door): string | undefined {
  const token = request.cookies[nameOf(door)];
  return token !== undefined && /^[\w-]{43}$/.test(token) ? token : undefined;
}

/** A cookie for this session alone: no script reads it, no other site's page sends it. */
export function giveToken(reply: FastifyReply, door: Door, token: string): void {
  reply.setCookie(nameOf(door), token, settings(door));
}

export function takeToken(reply: FastifyReply, door: Door): void {
  reply.clearCookie(nameOf(door), settings(door));
}

const settings = ({ https }: Door) =>
  ({ path: "/", httpOnly: true, sameSite: "strict", secure: https !== "none" }) as const;
