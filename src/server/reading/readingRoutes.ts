import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { FastifyInstance, FastifyReply } from "fastify";
import { calculationNamed, calculations } from "../../calculations/list.ts";
import { handbookFolder, handbookPage } from "./handbook.ts";
import { paperPage, papersPage } from "./paperPage.ts";
import { escaped, quietPage } from "./quietPage.ts";
import { type HandbookLanguage, isHandbookLanguage, readingWords, wishedLanguage } from "./words.ts";

const screens = join(import.meta.dirname, "..", "..", "screens");

/** What the pages to read are drawn with; nothing else of the program's folder is handed out. */
const drawn: Readonly<Record<string, readonly [file: string, type: string]>> = {
  "quiet.css": [join(import.meta.dirname, "quiet.css"), "text/css; charset=utf-8"],
  "light.js": [join(screens, "shell", "firstLight.js"), "text/javascript; charset=utf-8"],
  "common/base.css": [join(screens, "common", "base.css"), "text/css; charset=utf-8"],
  ...Object.fromEntries(
    ["latin", "latin-italic", "latin-more", "latin-more-italic", "greek"].map((cut) => [
      `fonts/bench-serif-${cut}.woff2`,
      [join(screens, "fonts", `bench-serif-${cut}.woff2`), "font/woff2"] as const,
    ]),
  ),
};

interface Asked {
  readonly Params: { readonly language: string; readonly chapter?: string };
}

/** Pages to read: the handbook in its languages and the paper of each calculation. */
export function addReadingRoutes(app: FastifyInstance): void {
  const html = (reply: FastifyReply, page: string) =>
    reply.type("text/html; charset=utf-8").header("cache-control", "no-cache").send(page);

  app.get<{ Params: { "*": string } }>("/reading/*", async ({ params }, reply) => {
    const name = params["*"];
    if (!Object.hasOwn(drawn, name)) return html(reply.code(404), lost("en"));
    const [file, type] = drawn[name]!;
    return reply.type(type).header("cache-control", "max-age=3600").send(readFileSync(file));
  });

  app.get("/handbook", async ({ headers }, reply) =>
    reply.redirect(`/handbook/${wishedLanguage(headers["accept-language"])}/`),
  );
  app.get<{ Params: { language: string; file: string } }>(
    "/handbook/pictures/:language/:file",
    async ({ params: { language, file } }, reply) => {
      if (!isHandbookLanguage(language) || !/^[a-z-]{1,60}\.webp$/.test(file)) return html(reply.code(404), lost("en"));
      try {
        const picture = readFileSync(join(handbookFolder, "pictures", language, file));
        return reply.type("image/webp").header("cache-control", "max-age=3600").send(picture);
      } catch {
        return html(reply.code(404), lost(language));
      }
    },
  );
  app.get<Asked>("/handbook/:language", async ({ params, headers }, reply) =>
    isHandbookLanguage(params.language)
      ? reply.redirect(`/handbook/${params.language}/`)
      : reply.redirect(`/handbook/${wishedLanguage(headers["accept-language"])}/`),
  );
  for (const path of ["/handbook/:language/", "/handbook/:language/:chapter"]) {
    app.get<Asked>(path, async ({ params, headers }, reply) => {
      const { language, chapter = "index" } = params;
      if (!isHandbookLanguage(language)) {
        return html(reply.code(404), lost(wishedLanguage(headers["accept-language"])));
      }
      const page = handbookPage(language, chapter);
      return page === undefined ? html(reply.code(404), lost(language)) : html(reply, page);
    });
  }

  const wanted = (language: string | undefined): HandbookLanguage => (isHandbookLanguage(language) ? language : "en");
  app.get<{ Querystring: { language?: string } }>("/papers", async ({ query }, reply) => {
    const papers = await Promise.all(Object.keys(calculations).map((name) => calculationNamed(name)));
    return html(
      reply,
      papersPage(
        papers.filter((paper) => paper !== undefined),
        wanted(query.language),
      ),
    );
  });
  app.get<{ Params: { name: string }; Querystring: { language?: string } }>(
    "/papers/:name",
    async ({ params, query }, reply) => {
      const paper = await calculationNamed(params.name);
      const language = wanted(query.language);
      return paper === undefined ? html(reply.code(404), lost(language)) : html(reply, paperPage(paper, language));
    },
  );
}

function lost(language: HandbookLanguage): string {
  const words = readingWords[language];
  return quietPage({
    language,
    title: words.notFound,
    inLanguage: (other) => `/handbook/${other}/`,
    body: `<h1>${escaped(words.notFound)}</h1>\n<p><a href="/handbook/${language}/">${escaped(words.notFoundMend)}</a></p>`,
  });
}
