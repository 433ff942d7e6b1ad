import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";

interface OfModel {
  Params: { model: string };
}

/** The prototype notebook over HTTP; what is written down goes through the evidence, as everything does. */
export function addNotebookRoutes(app: FastifyInstance, workshop: Workshop): void {
  app.get("/api/notebook", async () => workshop.notebook().index());
  app.get<OfModel>("/api/notebook/:model", async ({ params }) => workshop.notebook().model(params.model));
  app.get<OfModel>("/api/notebook/:model/outlook", async ({ params }) => workshop.notebook().outlooks(params.model));
  app.post<OfModel & { Params: { version: string } }>(
    "/api/notebook/:model/versions/:version/release",
    async ({ params, body }) => workshop.notebook().release(params.model, params.version, body),
  );
  app.post("/api/notebook-draft", async ({ body }) => workshop.notebook().draft(body));
  app.post("/api/notebook-trial", async ({ body }) => workshop.notebook().trial(body));
  app.post("/api/notebook-trial/outlook", async ({ body }) => workshop.notebook().trialOutlook(body));
}
