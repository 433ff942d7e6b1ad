import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";
import { OpenEvents } from "./people/openEvents.ts";

const beat_ms = 20_000;

/** News of the ledger as it grows, for as long as whoever listens may look. */
export function addEvents(app: FastifyInstance, workshop: Workshop): void {
  const open = new OpenEvents(workshop.people);
  app.addHook("onClose", async () => open.stop());
  app.get("/api/events", (request, reply) => {
    const { acting } = request;
    reply.hijack();
    const { raw } = reply;
    raw.writeHead(200, { "content-type": "text/event-stream", "cache-control": "no-store", "x-accel-buffering": "no" });
    const close = () => raw.end();
    const say = async (words: string) => {
      if (await open.holds(acting).catch(() => false)) raw.write(words);
      else close();
    };
    const tell = () => {
      const waiting = workshop.waitingFiles.waiting().length;
      return say(`data: ${JSON.stringify({ head: workshop.head(), waiting })}\n\n`);
    };
    void tell();
    const stop = workshop.subscribe(() => void tell());
    const beat = setInterval(() => void say(": still here\n\n"), beat_ms);
    const forget = open.opened(acting, close);
    raw.on("close", () => {
      clearInterval(beat);
      stop();
      forget();
    });
  });
}
