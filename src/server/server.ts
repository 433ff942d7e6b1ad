import { Readable } from "node:stream";
import fastify, { type FastifyInstance } from "fastify";
import { calculationNamed, calculations } from "../calculations/list.ts";
import { BadInput } from "../maths/badInput.ts";
import { version } from "../workshop/version.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { addCompression } from "./compressed.ts";
import { addExchangeRoutes } from "./exchangeRoutes.ts";
import { addGuards } from "./guards.ts";
import { addInstrumentRoutes } from "./instrumentRoutes.ts";
import { addListeningRoutes } from "./listeningRoutes.ts";
import { addNews } from "./news.ts";
import { addNotebookRoutes } from "./notebookRoutes.ts";
import { openApi } from "./openApi.ts";
import { addOrderRoutes } from "./orderRoutes.ts";
import { addPageFiles, isScreen } from "./pageFiles.ts";
import { addPaperRoutes } from "./paperRoutes.ts";
import type { Certificate } from "./people/certificate.ts";
import { addCustomerRoutes } from "./people/customerRoutes.ts";
import { type Door, loopbackDoor } from "./people/door.ts";
import { addGate, doorFault } from "./people/gate.ts";
import { listener } from "./people/listener.ts";
import { addPeopleRoutes } from "./people/peopleRoutes.ts";
import { addPromiseRoutes } from "./promiseRoutes.ts";
import { addProofRoutes } from "./proofRoutes.ts";
import { addReadingRoutes } from "./reading/readingRoutes.ts";
import { mostRecording_bytes, type RecorderFolder } from "./recorderFolder.ts";
import { takesOlder, told } from "./standing.ts";
import { addTimberRoutes } from "./timberRoutes.ts";
import { untilGone } from "./untilGone.ts";
import { addWaitingRoutes } from "./waitingRoutes.ts";

/** A page hears of the ledger within a second, and fetches anew no oftener than this. */
const ledgerApart_ms = 700;

export interface ServerOptions {
  readonly workshop: Workshop;
  /** Folder of the built page; without it only the API answers. */
  readonly page?: string;
  readonly most_bytes?: number;
  /** The folder that a recorder's files appear in, where one is watched. */
  readonly recorderFolder?: RecorderFolder;
  /** By which names it is opened, and who gets in; loopback alone when left out. */
  readonly door?: Door;
  /** With it HTTPS is spoken. */
  readonly certificate?: Certificate;
}

/** The HTTP door: the same calculations and the same workshop that the command line calls. */
export async function buildServer({
  workshop,
  page,
  most_bytes = mostRecording_bytes,
  recorderFolder,
  door = loopbackDoor,
  certificate,
}: ServerOptions): Promise<FastifyInstance> {
  const app = fastify({
    logger: false,
    bodyLimit: 16 * 2 ** 20,
    forceCloseConnections: true,
    trustProxy: door.https === "proxy" ? (_address, hop) => hop < 1 : false,
    serverFactory: (answer) => listener(answer, certificate),
  });
  addGuards(app, door);
  addCompression(app);
  // Who may come in stands in the ledger too: it is brought up before anybody is asked.
  app.addHook("onRequest", async ({ url }) => {
    if (url.startsWith("/api/")) await workshop.current();
  });
  await addGate(app, { people: workshop.people, door });
  app.setErrorHandler((error: Error & { statusCode?: number }, _request, reply) => {
    const atDoor = doorFault(error);
    if (atDoor) {
      if (atDoor.wait_s !== undefined) reply.header("retry-after", String(atDoor.wait_s));
      return reply.code(atDoor.status).send({ error: { path: "", message: error.message } });
    }
    if (error instanceof BadInput) return reply.code(422).send({ error: { path: error.path, message: error.message } });
    if (error.statusCode === 400) {
      const message = "a body that can't be read; one JSON object; mend the JSON and send it as application/json";
      return reply.code(400).send({ error: { path: "", message } });
    }
    const status = error.statusCode ?? (error.name.startsWith("Store") ? 503 : 500);
    return reply.code(status).send({ error: { path: "", message: error.message } });
  });

  app.get("/api/openapi.json", async () => openApi(await allPapers(), version));
  app.get("/api/calculations", async () =>
    (await allPapers()).map(({ name, title, sources, validity, cautions }) => ({
      name,
      title,
      sources,
      validity,
      cautions,
    })),
  );
  app.post<{ Params: { name: string } }>("/api/calc/:name", async (request, reply) => {
    const given = await workshop.answer(request.params.name, request.body, untilGone(reply));
    if (given.ok) return given.output;
    return reply.code(given.error.path === "name" ? 404 : 422).send({ error: given.error });
  });

  app.get("/api/workshop", async () => workshop.overview());
  app.get<{ Querystring: { find?: string } }>("/api/units", async ({ query }) => workshop.findUnits(query.find));
  app.get<{ Params: { unit: string } }>("/api/units/:unit", async (request, reply) =>
    told(reply, await workshop.unitStanding(request.params.unit, takesOlder(request))),
  );
  app.get<{ Params: { unit: string } }>("/api/units/:unit/conditions", async (request) =>
    workshop.conditions(request.params.unit),
  );
  app.get<{ Params: { unit: string } }>("/api/units/:unit/hum", async (request) =>
    workshop.humHearing(request.params.unit),
  );
  app.get<{ Params: { unit: string } }>("/api/units/:unit/hum/under-way", async (request) => {
    const underWay = workshop.humUnderWay(request.params.unit);
    return underWay ? { underWay } : {};
  });
  app.get<{ Params: { unit: string } }>("/api/units/:unit/bench", async (request) =>
    workshop.bench(request.params.unit),
  );
  app.get<{ Params: { unit: string; recording: string }; Querystring: { channel?: string; band?: string } }>(
    "/api/units/:unit/recordings/:recording/spectrum",
    async ({ params, query }) => workshop.spectrum(params.unit, params.recording, query.channel, query.band),
  );
  app.get("/api/morning", async (request, reply) => told(reply, await workshop.stands("morning", takesOlder(request))));
  app.get<{ Params: { unit: string } }>("/api/units/:unit/probe", async (request) =>
    workshop.probe(request.params.unit),
  );
  app.get<{ Params: { unit: string } }>("/api/units/:unit/probe/windows", async (request) =>
    workshop.probeWindows(request.params.unit),
  );
  app.get<{ Params: { unit: string } }>("/api/units/:unit/probe/suspects", async (request) =>
    workshop.probeSuspects(request.params.unit),
  );
  app.get<{ Querystring: { find?: string } }>("/api/trays", async ({ query }) => workshop.trays(query.find));
  app.get<{ Params: { batch: string } }>("/api/trays/:batch", async (request) => workshop.tray(request.params.batch));
  app.get<{ Params: { batch: string }; Querystring: { from?: string } }>("/api/trays/:batch/sets", async (request) =>
    workshop.valveSets(request.params.batch, request.query.from),
  );
  addPeopleRoutes(app, workshop.people, door);
  addCustomerRoutes(app, workshop.customers, workshop.people);
  addOrderRoutes(app, workshop);
  addPromiseRoutes(app, workshop);
  addNotebookRoutes(app, workshop);
  addListeningRoutes(app, workshop);
  addWaitingRoutes(app, workshop, recorderFolder);
  addProofRoutes(app, workshop);
  addInstrumentRoutes(app, workshop);
  addTimberRoutes(app, workshop);
  addPaperRoutes(app, workshop);
  addExchangeRoutes(app, workshop);
  addReadingRoutes(app);

  app.post<{ Body: { entries?: unknown } }>("/api/evidence", async (request) => ({
    entries: await workshop.enter(request.body?.entries),
  }));
  app.post<{ Params: { unit: string }; Body: { by?: unknown } }>("/api/units/:unit/release", async (request) =>
    workshop.release(request.params.unit, request.body?.by),
  );
  app.addContentTypeParser(
    ["audio/wav", "audio/x-wav", "audio/wave", "application/octet-stream"],
    // Bytes go to disk as they come.
    (_request, body, done) => done(null, body),
  );
  app.post("/api/recordings", async (request) => {
    if (!(request.body instanceof Readable))
      throw new BadInput(
        "",
        "no WAV bytes",
        "the body is the WAV file itself, type audio/wav",
        "send the file as it is",
      );
    const { file_sha256 } = await workshop.keepRecording(atMost(request.body, most_bytes));
    return { file_sha256 };
  });
  // The ledger as it grows.
  addNews(app, "/api/events", workshop, {
    leastApart_ms: ledgerApart_ms,
    tell: () => ({
      head: workshop.head(),
      entries: workshop.entries,
      waiting: workshop.waitingFiles.waiting().length,
    }),
    subscribe: (listener) => workshop.subscribe(listener),
  });

  const hasPage = await addPageFiles(app, page);
  app.setNotFoundHandler((request, reply) =>
    hasPage && isScreen(request) ? reply.sendFile("index.html") : notFound(reply, request.url),
  );
  return app;
}

/** Bytes as they come, until they are too many; what is left is let pass, so that the sender hears why. */
async function* atMost(body: Readable, most_bytes: number): AsyncGenerator<Uint8Array> {
  let seen = 0;
  for await (const chunk of body.iterator({ destroyOnReturn: false }) as AsyncIterable<Uint8Array>) {
    seen += chunk.length;
    if (seen > most_bytes) {
      body.resume();
      throw new BadInput(
        "recording",
        `more than ${Math.round(most_bytes / 2 ** 20)} MiB`,
        "recordings up to that size",
        "cut it into shorter files",
      );
    }
    yield chunk;
  }
}

function notFound(reply: { code(status: number): { send(body: unknown): unknown } }, url: string): unknown {
  return reply.code(404).send({
    error: { path: "", message: `${url.slice(0, 120)}; there is nothing at this address; see /api/openapi.json` },
  });
}

async function allPapers() {
  const papers = await Promise.all(Object.keys(calculations).map((name) => calculationNamed(name)));
  return papers.filter((paper) => paper !== undefined);
}
