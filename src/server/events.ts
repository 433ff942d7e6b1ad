import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";
import { paced } from "./paced.ts";
import { OpenEvents } from "./people/openEvents.ts";

const beat_ms = 20_000;
/** A page hears within a second, and fetches anew no oftener than this. */
const leastApart_ms = 700;

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
    const news = paced(leastApart_ms, () => {
      const waiting = workshop.waitingFiles.waiting().length;
      void say(`data: ${JSON.stringify({ head: workshop.head(), entries: workshop.entries, waiting })}\n\n`);
    });
    news.ask();
    const stop = workshop.subscribe(news.ask);
    const beat = setInterval(() => void say(": still here\n\n"), beat_ms);
    const forget = open.opened(acting, close);
    raw.on("close", () => {
      clearInterval(beat);
      news.stop();
      stop();
      forget();
    });
  });
}
