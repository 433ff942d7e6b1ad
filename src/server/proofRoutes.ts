import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";

/** Instruments on trial, safety sheets and adopted limits, what checks and units cost; writing goes through the evidence. */
export function addProofRoutes(app: FastifyInstance, workshop: Workshop): void {
  app.get("/api/instruments", async () => workshop.instruments());
  app.get("/api/gauge-studies", async () => workshop.gaugeStudies());
  app.get("/api/unit-charts", async () => workshop.unitCharts());
  app.get("/api/safety-limits", async () => workshop.safetyLimits());
  app.get<{ Params: { unit: string } }>("/api/units/:unit/safety", async ({ params }) => workshop.safety(params.unit));
  app.get("/api/checks", async () => workshop.checks());
  app.get("/api/soaks", async () => workshop.soaks());
  app.get("/api/costs", async () => workshop.costs());
}
