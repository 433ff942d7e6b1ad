import { Readable } from "node:stream";
import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import { BadInput, quote } from "../maths/badInput.ts";
import { type FileIn, gridOf } from "../workshop/exchange/desk.ts";
import type { Workshop } from "../workshop/workshop.ts";

/** A table of 200,000 rows; whoever has more takes it in by parts. */
const most_bytes = 64 * 2 ** 20;

interface Looking {
  readonly Querystring: Readonly<Record<string, string | undefined>>;
}

/** Lists and tables on their way out, files on their way in. What a file brings is written down through `/api/evidence`. */
export function addExchangeRoutes(app: FastifyInstance, workshop: Workshop): void {
  app.get("/api/exchange", async () => workshop.exchange.offers());
  app.get("/api/exchange/workshop.zip", async (_request, reply) =>
    attached(reply, "workshop.zip", "application/zip").send(await workshop.archive()),
  );
  app.get<{ Params: { what: string; format: string } }>("/api/exchange/:what/:format", async ({ params }, reply) => {
    const { name, type, bytes } = await workshop.exchange.takeOut(params.what, params.format);
    return attached(reply, name, type).send(bytes);
  });
  app.post<Looking>("/api/exchange/look", async (request) =>
    workshop.exchange.look(request.query.kind ?? "", await bodyBytes(request), readingOf(request.query)),
  );
  app.post<Looking>("/api/exchange/table", async (request) =>
    gridOf(await bodyBytes(request), readingOf(request.query)),
  );
}

function attached(reply: FastifyReply, name: string, type: string): FastifyReply {
  return reply.type(type).header("content-disposition", `attachment; filename="${name}"`);
}

function readingOf({ decimal, encoding, sheet, called, fill }: Looking["Querystring"]): FileIn {
  if (decimal !== undefined && decimal !== "point" && decimal !== "comma")
    throw new BadInput("decimal", quote(decimal), "point or comma", "say which sign stands before the decimals");
  return {
    ...(decimal !== undefined && { decimal }),
    ...(encoding && { encoding }),
    ...(sheet && { sheet }),
    ...(called && { called: namesIn("called", called) }),
    ...(fill && { fill: namesIn("fill", fill) }),
  };
}

function namesIn(path: string, text: string): Readonly<Record<string, string>> {
  const wrong = () => new BadInput(path, quote(text), "a JSON object of texts", "send it in that form");
  let told: unknown;
  try {
    told = JSON.parse(text);
  } catch {
    throw wrong();
  }
  const isObject = typeof told === "object" && told !== null && !Array.isArray(told);
  if (!isObject || Object.values(told as object).some((value) => typeof value !== "string")) throw wrong();
  return told as Readonly<Record<string, string>>;
}

async function bodyBytes(request: FastifyRequest): Promise<Buffer> {
  if (!(request.body instanceof Readable))
    throw new BadInput("", "no file", "the body is the file itself", "send it as application/octet-stream");
  const chunks: Buffer[] = [];
  let seen = 0;
  for await (const chunk of request.body.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
    seen += chunk.length;
    if (seen > most_bytes) {
      request.body.resume();
      throw new BadInput("file", `over ${Math.round(most_bytes / 2 ** 20)} MiB`, "a table up to that size", "split it");
    }
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}
