import type { FastifyInstance, FastifyReply } from "fastify";
import { BadInput, quote } from "../maths/badInput.ts";
import { dossierLanguage } from "../workshop/dossier/language.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { inlineSources } from "./inline.ts";

interface Asked {
  readonly Params: { readonly unit: string };
  readonly Querystring: { readonly language?: string };
}

/** What leaves the shop on paper: a unit's record as PDF or as one page, and labels. */
export function addPaperRoutes(app: FastifyInstance, workshop: Workshop): void {
  app.get<Asked>("/api/units/:unit/dossier.pdf", async ({ params, query }, reply) => {
    const pdf = await workshop.dossierPdf(params.unit, dossierLanguage(query.language, "language"));
    return reply
      .type("application/pdf")
      .header("content-disposition", named(`${params.unit}.pdf`))
      .send(pdf);
  });
  app.get<Asked>("/api/units/:unit/dossier.html", async ({ params, query }, reply) =>
    standingAlone(reply, await workshop.dossierPage(params.unit, dossierLanguage(query.language, "language"))),
  );
  app.get<{ Params: { code: string } }>("/api/codes/:code", async ({ params }) => workshop.codePlace(params.code));
  app.get<{ Querystring: Readonly<Record<string, string | undefined>> }>(
    "/api/labels.pdf",
    async ({ query }, reply) => {
      const pdf = await workshop.labelsPdf(
        (query.codes ?? "").split(",").flatMap((code) => code.trim() || []),
        {
          columns: whole(query.columns, "columns", 3, 1, 8),
          rows: whole(query.rows, "rows", 8, 1, 30),
          skip: whole(query.skip, "skip", 0, 0, 239),
        },
        query.valves === "yes",
      );
      return reply.type("application/pdf").header("content-disposition", named("labels.pdf")).send(pdf);
    },
  );
}

function whole(text: string | undefined, path: string, usual: number, least: number, most: number): number {
  if (text === undefined || text === "") return usual;
  const value = Number(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new BadInput(path, quote(text), `a whole number from ${least} to ${most}`, "give it as digits");
}

/** A page with its style inside, which the strict policy of the others would not let count: here that very style is named. */
function standingAlone(reply: FastifyReply, page: string): FastifyReply {
  const styles = inlineSources(page, "style").join(" ") || "'none'";
  const policy = `default-src 'none'; style-src ${styles}; font-src data:; img-src data:; frame-ancestors 'none'; base-uri 'none'; form-action 'none'`;
  return reply.type("text/html; charset=utf-8").header("content-security-policy", policy).send(page);
}

const named = (file: string) => `inline; filename="${file.replaceAll(/[^\w.-]/g, "_")}"`;
