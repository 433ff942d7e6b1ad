import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";
import { takesOlder, told } from "./standing.ts";

/** Instruments on trial, safety sheets and adopted limits, what checks and units cost; writing goes through the evidence. */
export function addProofRoutes(app: FastifyInstance, workshop: Workshop): void {
  const slow = {
    "/api/instruments": "instruments",
    "/api/checks": "checks",
    "/api/soaks": "soaks",
    "/api/costs": "costs",
  } as const;
  for (const [path, question] of Object.entries(slow))
    app.get(path, async (request, reply) => told(reply, await workshop.stands(question, takesOlder(request))));
  // Of the charts, those of one model: with `model` left out all of them, with an empty one those of the first.
  app.get<{ Querystring: { model?: string } }>("/api/unit-charts", async (request, reply) => {
    const view = told(reply, await workshop.stands("unit charts", takesOlder(request)));
    const { model } = request.query;
    if (model === undefined) return view;
    return { ...view, charts: view.charts.filter((chart) => chart.model === (model || view.models[0])) };
  });
  app.get("/api/gauge-studies", async () => workshop.gaugeStudies());
  app.get("/api/safety-limits", async () => workshop.safetyLimits());
  app.get<{ Params: { unit: string } }>("/api/units/:unit/safety", async ({ params }) => workshop.safety(params.unit));
}
