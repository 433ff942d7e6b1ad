import type { FastifyInstance } from "fastify";
import { BadInput } from "../maths/badInput.ts";
import type { Soon } from "../workshop/timber/soon.ts";
import type { CutPlanView, RunsView } from "../workshop/timber/views.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { soonTold, takesOlder } from "./standing.ts";

/** A photo from a telephone, at most. */
const most_bytes = 15 * 2 ** 20;

/** The timber shelf, single pieces, cases of units, and photos of flaws. */
export function addTimberRoutes(app: FastifyInstance, workshop: Workshop): void {
  app.get("/api/timber", async () => workshop.timber());
  app.get("/api/timber/early-weighing", async (request, reply) =>
    soonTold(reply, workshop.stands("early weighing", takesOlder(request))),
  );
  app.get("/api/timber/cracks", async () => workshop.timberCracks());
  for (const name of ["cuts", "runs"] as const) {
    app.get(`/api/timber/${name}`, async (request, reply): Promise<Soon<CutPlanView | RunsView>> => {
      const answer = await soonTold<CutPlanView | RunsView>(reply, workshop.stands(name, takesOlder(request)));
      const progress = workshop.timberProgress(name);
      return answer.ready === undefined && progress ? { ...answer, progress } : answer;
    });
  }
  app.get<{ Params: { piece: string } }>("/api/timber/pieces/:piece", async (request) =>
    workshop.timberPiece(request.params.piece),
  );
  app.get<{ Params: { unit: string } }>("/api/units/:unit/case", async (request) =>
    workshop.unitCase(request.params.unit),
  );

  app.addContentTypeParser(
    ["image/jpeg", "image/png", "image/webp"],
    { parseAs: "buffer", bodyLimit: most_bytes },
    (_request, body, done) => done(null, body),
  );
  app.post("/api/photos", async (request) => {
    if (!Buffer.isBuffer(request.body))
      throw new BadInput("", "no picture", "the body is the picture itself, type image/jpeg", "send the file as it is");
    return { photo_sha256: await workshop.keepPhoto(request.body) };
  });
  app.get<{ Params: { sha256: string } }>("/api/photos/:sha256", async (request, reply) => {
    const { bytes, type } = await workshop.photo(request.params.sha256);
    return reply.header("cache-control", "max-age=31536000, immutable").type(type).send(bytes);
  });
}
