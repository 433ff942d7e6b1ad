import { createServer as createPlain, type RequestListener, type Server } from "node:http";
import { createServer as createSecure } from "node:https";
import type { Certificate } from "./certificate.ts";

/** Slow or idle callers are let go, so that a few of them do not keep everybody else out. */
const headers_ms = 20_000;
const keepAlive_ms = 72_000;
const mostConnections = 1000;

/** What listens: HTTP, or HTTPS of at least TLS 1.2 with a certificate. */
export function listener(answer: RequestListener, certificate?: Pick<Certificate, "key" | "certificate">): Server {
  const server = certificate
    ? createSecure({ key: certificate.key, cert: certificate.certificate, minVersion: "TLSv1.2" }, answer)
    : createPlain(answer);
  server.headersTimeout = headers_ms;
  server.keepAliveTimeout = keepAlive_ms;
  // A recording of an hour takes its time.
  server.requestTimeout = 0;
  server.maxConnections = mostConnections;
  return server;
}
