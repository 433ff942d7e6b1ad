import type { FastifyInstance } from "fastify";
import type { Workshop } from "../workshop/workshop.ts";

/** The workshop's set-up, orders, and a unit's way from the bench into its parcel and back; writing goes through the evidence. */
export function addOrderRoutes(app: FastifyInstance, workshop: Workshop): void {
  type OfUnit = { Params: { unit: string } };
  app.get("/api/shop", async () => workshop.shopSetUp());
  app.get<{ Querystring: { find?: string } }>("/api/orders", async ({ query }) => workshop.orders(query.find));
  app.get<{ Params: { order: string } }>("/api/orders/:order", async ({ params }) => workshop.order(params.order));
  app.get<OfUnit>("/api/units/:unit/work", async ({ params }) => workshop.work(params.unit));
  app.get<OfUnit>("/api/units/:unit/pack", async ({ params }) => workshop.pack(params.unit));
  app.get<OfUnit>("/api/units/:unit/return", async ({ params }) => workshop.returned(params.unit));
  app.get<OfUnit>("/api/units/:unit/reserve", async ({ params }) => workshop.reserve(params.unit));
}
