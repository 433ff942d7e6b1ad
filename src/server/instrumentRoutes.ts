import type { FastifyInstance } from "fastify";
import { InstrumentFault } from "../instruments/fault.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import type { LinksView } from "../workshop/instruments/linkViews.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { addNews } from "./news.ts";

type Fields = Readonly<Record<string, unknown>>;
type One = { Params: { instrument: string }; Body: Fields | undefined };

/** News of readings are told this often at most. */
const least_ms = 200;

/**
 * Instruments on a wire. A request names an instrument and a quantity, never a port or an address: those come from the
 * descriptions in the ledger alone.
 */
export function addInstrumentRoutes(app: FastifyInstance, workshop: Workshop): void {
  const { links } = workshop;
  app.addHook("onListen", async () => {
    await links.resume();
  });
  app.register(async (scope) => {
    scope.setErrorHandler((fault: Error, _request, reply) => {
      if (!(fault instanceof InstrumentFault)) throw fault;
      return reply.code(fault.statusCode).send({ error: { path: fault.path, message: fault.message } });
    });
    scope.get("/api/instruments/links", async (): Promise<LinksView> => links.view());
    scope.post<{ Body: Fields | undefined }>("/api/instruments/links", async ({ body }) => ({
      instrument: await links.link(body?.file, byOf(body)),
    }));
    scope.post<One>("/api/instruments/:instrument/read", async ({ params, body }) =>
      links.read(params.instrument, body?.quantity, idOf(body)),
    );
    scope.post<{ Params: { measurement: string }; Body: Fields | undefined }>(
      "/api/instruments/measurements/:measurement",
      async ({ params, body }) => ({
        entry: await links.keep(params.measurement, byOf(body), fieldsOf("about", body?.about), asOf(body)),
      }),
    );
    scope.post<One>("/api/instruments/:instrument/logs", async ({ params, body }) => {
      const { quantity, about, every_s, for_s, conditions } = body ?? {};
      const given = {
        instrument: params.instrument,
        quantity: quantity as string,
        about: about as Fields,
        every_s: every_s as number,
        for_s: for_s as number,
        ...(conditions !== undefined && { conditions: conditions as Record<string, string | number> }),
        ...(body?.as !== undefined && { as: asOf(body)! }),
      };
      return { log: await links.startLog(given, byOf(body), idOf(body)) };
    });
    scope.post<{ Params: { log: string }; Body: Fields | undefined }>(
      "/api/instruments/logs/:log/stop",
      async ({ params, body }) => {
        await links.stopLog(params.log, byOf(body));
        return { log: params.log };
      },
    );
    scope.get<One>("/api/instruments/:instrument/supply", async ({ params }) => links.supplyNow(params.instrument));
    scope.post<One>("/api/instruments/:instrument/supply", async ({ params, body }) => {
      const settings = fieldsOf("settings", body?.settings) as Readonly<Record<string, number>>;
      return links.set(params.instrument, settings, byOf(body), moreOf(body));
    });
    scope.post<One>("/api/instruments/:instrument/output", async ({ params, body }) => {
      const on = body?.on;
      if (typeof on !== "boolean") throw new BadInput("on", quote(on), "true or false", "say whether it shall be on");
      return links.switchOutput(params.instrument, on, byOf(body), moreOf(body));
    });
  });
  // States and readings as they change.
  addNews(app, "/api/instruments/live", workshop, {
    leastApart_ms: least_ms,
    tell: () => links.view(),
    subscribe: (listener) => links.subscribe(listener),
  });
}

function byOf(body: Fields | undefined): string {
  const by = body?.by;
  if (typeof by === "string" && by.trim() !== "") return by.trim();
  throw new BadInput("by", quote(by), "who does it", "name the role, such as bench technician");
}

function textOf(path: string, given: unknown): string | undefined {
  if (given === undefined || (typeof given === "string" && given !== "" && given.length <= 120)) return given;
  throw new BadInput(path, quote(given), "a text of up to 120 letters", "write it as text, or leave it out");
}

const asOf = (body: Fields | undefined) => textOf("as", body?.as);

function idOf(body: Fields | undefined): string | undefined {
  const id = textOf("id", body?.id);
  if (id === undefined || /^[A-Za-z0-9._:-]{1,80}$/.test(id)) return id;
  throw new BadInput("id", quote(id), "up to 80 letters, digits and . _ : -", "choose another, or leave it out");
}

function moreOf(body: Fields | undefined): { readonly unit?: string; readonly id?: string } {
  const [unit, id] = [textOf("unit", body?.unit), idOf(body)];
  return { ...(unit !== undefined && { unit }), ...(id !== undefined && { id }) };
}

function fieldsOf(path: string, given: unknown): Fields {
  if (typeof given === "object" && given !== null && !Array.isArray(given)) return given as Fields;
  throw new BadInput(path, quote(given), "an object", "give it as an object");
}
