import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";
import { paced } from "./paced.ts";
import { OpenEvents } from "./people/openEvents.ts";

const beat_ms = 20_000;

/** What is told anew whenever it may have changed. */
interface News {
  /** Nobody hears of it oftener than this. */
  readonly leastApart_ms: number;
  tell(): unknown;
  subscribe(listener: () => void): () => void;
}

/** A stream of news (server-sent events, one JSON each), for as long as whoever listens may look. */
export function addNews(app: FastifyInstance, path: string, workshop: Workshop, news: News): void {
  const open = new OpenEvents(workshop.people);
  app.addHook("onClose", async () => open.stop());
  app.get(path, (request, reply) => {
    const { acting } = request;
    reply.hijack();
    const { raw } = reply;
    raw.writeHead(200, { "content-type": "text/event-stream", "cache-control": "no-store", "x-accel-buffering": "no" });
    const close = () => raw.end();
    const say = async (words: string) => {
      if (await open.holds(acting).catch(() => false)) raw.write(words);
      else close();
    };
    const telling = paced(news.leastApart_ms, () => void say(`data: ${JSON.stringify(news.tell())}\n\n`));
    telling.ask();
    const stop = news.subscribe(telling.ask);
    const beat = setInterval(() => void say(": still here\n\n"), beat_ms);
    const forget = open.opened(acting, close);
    raw.on("close", () => {
      clearInterval(beat);
      telling.stop();
      stop();
      forget();
    });
  });
}
