import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";
import { takesOlder, told } from "./standing.ts";

/** Instruments on trial, safety sheets and adopted limits, what checks and units cost; writing goes through the evidence. */
export function addProofRoutes(app: FastifyInstance, workshop: Workshop): void {
  const slow = {
    "/api/instruments": "instruments",
    "/api/unit-charts": "unit charts",
    "/api/checks": "checks",
    "/api/soaks": "soaks",
    "/api/costs": "costs",
  } as const;
  for (const [path, question] of Object.entries(slow))
    app.get(path, async (request, reply) => told(reply, await workshop.stands(question, takesOlder(request))));
  app.get("/api/gauge-studies", async () => workshop.gaugeStudies());
  app.get("/api/safety-limits", async () => workshop.safetyLimits());
  app.get<{ Params: { unit: string } }>("/api/units/:unit/safety", async ({ params }) => workshop.safety(params.unit));
}
