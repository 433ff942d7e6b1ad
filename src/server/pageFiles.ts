import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fastifyStatic from "@fastify/static";
import type { FastifyInstance } from "fastify";
import { contentPolicy } from "./guards.ts";
import { inlineSources } from "./inline.ts";

/** A part of the page bears the hash of its contents in its name, so that what was once fetched is never asked for again. */
const kept = "public, max-age=31536000, immutable";
/** The page itself names its parts, and is asked for anew each time it is opened. */
const askedAnew = "no-cache";

/**
 * Hands out the built page; any address without an answer of its own is one of its screens. Files go out as they were
 * compressed when the page was built. What the page carries inside for its first paint is named in its policy.
 *
 * @returns whether there is such a page
 */
export async function addPageFiles(app: FastifyInstance, page: string | undefined): Promise<boolean> {
  if (!page || !existsSync(join(page, "index.html"))) return false;
  const index = readFileSync(join(page, "index.html"), "utf8");
  const inside = (["style", "script"] as const).map((tag) =>
    [`; ${tag}-src 'self'`, ...inlineSources(index, tag)].join(" "),
  );
  await app.register(fastifyStatic, {
    root: page,
    preCompressed: true,
    cacheControl: false,
    setHeaders: (reply, path) => {
      const isPart = /[\\/]assets[\\/]/.test(path);
      reply.header("cache-control", isPart ? kept : askedAnew);
      if (!isPart) reply.header("content-security-policy", `${contentPolicy}${inside.join("")}`);
    },
  });
  return true;
}

/** A screen's address, and not that of an answer or of a part of an older page. */
export const isScreen = ({ method, url }: { readonly method: string; readonly url: string }): boolean =>
  method === "GET" && !/^\/(api|assets)\//.test(url);
