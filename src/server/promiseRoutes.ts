import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";
import { soonTold, takesOlder, told } from "./standing.ts";
import { untilGone } from "./untilGone.ts";

/** Dates and what would move them, what to order, what was kept, and the look-back. */
export function addPromiseRoutes(app: FastifyInstance, workshop: Workshop): void {
  app.get("/api/promises", async (request, reply) =>
    told(reply, await workshop.stands("promises", takesOlder(request))),
  );
  app.get("/api/promises/ordering", async (request, reply) =>
    soonTold(reply, workshop.stands("ordering", takesOlder(request))),
  );
  app.get("/api/promises/kept", async (request, reply) =>
    told(reply, await workshop.stands("promises kept", takesOlder(request))),
  );
  app.get("/api/promises/what-if", async (request, reply) =>
    told(reply, await workshop.stands("what-if options", takesOlder(request))),
  );
  app.post("/api/promises/what-if", async (request, reply) => workshop.whatIf(request.body, untilGone(reply)));
  app.post<{ Params: { order: string }; Body: { by?: unknown } | undefined }>(
    "/api/promises/:order",
    async ({ params, body }) => {
      const { by, ...question } = body ?? {};
      return { entry: await workshop.givePromise(params.order, by, question) };
    },
  );
  app.get("/api/look-back", async (request, reply) =>
    soonTold(reply, workshop.stands("look-back", takesOlder(request))),
  );
}
