// Part of the build: lets the stack of an error name files and lines of the sources. Node's own way reads every map at
// the start; here a map is read when a stack is.
import { readFileSync } from "node:fs";
import { SourceMap } from "node:module";
import { fileURLToPath } from "node:url";

const home = new URL(".", import.meta.url).href;
const maps = new Map();

Error.prepareStackTrace = (error, sites) =>
  `${nameOf(error)}${sites.map((site) => `\n    at ${sourceOf(site) ?? site}`).join("")}`;

function nameOf(error) {
  try {
    return Error.prototype.toString.call(error);
  } catch {
    return "Error";
  }
}

function sourceOf(site) {
  const url = site.getFileName();
  if (!url?.startsWith(home)) return undefined;
  const found = mapOf(url)?.findEntry(site.getLineNumber() - 1, site.getColumnNumber() - 1);
  if (found?.originalSource === undefined) return undefined;
  const place = `${fileURLToPath(new URL(found.originalSource, url))}:${found.originalLine + 1}:${found.originalColumn + 1}`;
  const name = site.getFunctionName();
  return name ? `${name} (${place})` : place;
}

function mapOf(url) {
  if (!maps.has(url)) {
    try {
      maps.set(url, new SourceMap(JSON.parse(readFileSync(fileURLToPath(`${url}.map`), "utf8"))));
    } catch {
      maps.set(url, undefined);
    }
  }
  return maps.get(url);
}
