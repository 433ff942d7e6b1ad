import type { FastifyInstance } from "fastify";
import { soon } from "../workshop/timber/soon.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { untilGone } from "./untilGone.ts";

/** Dates and what would move them, what to order, what was kept, and the look-back. */
export function addPromiseRoutes(app: FastifyInstance, workshop: Workshop): void {
  app.get("/api/promises", async () => workshop.promises());
  app.get("/api/promises/ordering", async () => soon(workshop.ordering()));
  app.get("/api/promises/kept", async () => workshop.promisesKept());
  app.get("/api/promises/what-if", async () => workshop.whatIfOptions());
  app.post("/api/promises/what-if", async (request, reply) => workshop.whatIf(request.body, untilGone(reply)));
  app.post<{ Params: { order: string }; Body: { by?: unknown } | undefined }>(
    "/api/promises/:order",
    async ({ params, body }) => {
      const { by, ...question } = body ?? {};
      return { entry: await workshop.givePromise(params.order, by, question) };
    },
  );
  app.get("/api/look-back", async () => soon(workshop.lookBack()));
}
