import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";

interface OfSeries {
  Params: { series: string };
}

/** Blind series over HTTP; answers, ends and notes go through the evidence, as everything does. */
export function addListeningRoutes(app: FastifyInstance, workshop: Workshop): void {
  app.get("/api/listening", async () => workshop.listening());
  app.post("/api/listening", async ({ body }) => ({ entry: await workshop.planSeries(body) }));
  app.get<OfSeries>("/api/listening/:series", async ({ params }) => workshop.series(params.series));
  app.get<OfSeries & { Params: { listener: string } }>("/api/listening/:series/answers/:listener", async ({ params }) =>
    workshop.answerIds(params.series, params.listener),
  );
  app.get<OfSeries & { Params: { listener: string } }>(
    "/api/listening/:series/switching/:listener",
    async ({ params }) => workshop.switching(params.series, params.listener),
  );
}
