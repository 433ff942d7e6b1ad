import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import fastify from "fastify";
import { describe, expect, test } from "vitest";
import { calculations } from "../src/calculations/list.ts";
import { body as evidenceBody } from "../src/claims/evidence.ts";
import { handbookAt, papersAt } from "../src/screens/shell/handbook.ts";
import { chaptersOf, chapterText, handbookFolder, titleOf } from "../src/server/reading/handbook.ts";
import { addReadingRoutes } from "../src/server/reading/readingRoutes.ts";
import { handbookLanguages } from "../src/server/reading/words.ts";
import { root } from "./helpers.ts";

const chapters = readdirSync(join(handbookFolder, "en"))
  .map((file) => file.replace(/\.md$/, ""))
  .toSorted();
const text = (language: (typeof handbookLanguages)[number], chapter: string) => chapterText(language, chapter) ?? "";
const headings = (markdown: string) => [...markdown.matchAll(/^(#+) /gm)].map(([, marks]) => marks!.length);

/** Every word that a screen says in a language, one after another. */
function saidOnScreens(language: (typeof handbookLanguages)[number]): string {
  const screens = join(root, "src", "screens");
  const files = readdirSync(screens, { recursive: true, encoding: "utf8" }).filter((file) =>
    language === "en" ? /[mM]essages\.ts$/.test(file) : file.startsWith(join("languages", language, "/")),
  );
  return files
    .filter((file) => file.endsWith(".ts"))
    .map((file) => readFileSync(join(screens, file), "utf8").replaceAll("\\u2019", "’"))
    .join("\n");
}

describe.each(handbookLanguages)("the handbook in %s", (language) => {
  test("has the same chapters as the others, each built alike", () => {
    const here = readdirSync(join(handbookFolder, language)).map((file) => file.replace(/\.md$/, ""));
    expect(here.toSorted()).toEqual(chapters);
    for (const chapter of chapters) {
      expect(headings(text(language, chapter)), chapter).toEqual(headings(text("en", chapter)));
      const steps = (markdown: string) => [...markdown.matchAll(/^(\d+)\. /gm)].length;
      expect(steps(text(language, chapter)), `steps of ${chapter}`).toBe(steps(text("en", chapter)));
      const cautions = (markdown: string) => [...markdown.matchAll(/^> /gm)].length;
      expect(cautions(text(language, chapter)), `cautions of ${chapter}`).toBe(cautions(text("en", chapter)));
      expect(titleOf(text(language, chapter))).not.toBe("");
    }
  });

  test("leads to every chapter from its contents, and nowhere that is not", () => {
    expect([...chaptersOf(language)].toSorted()).toEqual(chapters);
    for (const chapter of chapters) {
      const links = [...text(language, chapter).matchAll(/(!?)\[([^\]]*)\]\(([^)]+)\)/g)];
      for (const [, picture, words, to] of links) {
        const file = join(handbookFolder, language, to!);
        expect(existsSync(file), `${chapter}: ${to}`).toBe(true);
        if (picture === "!") {
          expect(to).toMatch(new RegExp(`^\\.\\./pictures/${language}/`));
          expect(words!.length, `what ${to} shows`).toBeGreaterThan(30);
        }
      }
    }
  });

  test("names buttons and headings as the screens say them", () => {
    const said = saidOnScreens(language).replaceAll(/\s+/g, " ");
    const missing = chapters.flatMap((chapter) =>
      [...text(language, chapter).matchAll(/\*\*(.+?)\*\*/g)].flatMap(([, label]) =>
        said.toLowerCase().includes(label!.toLowerCase()) ? [] : [`${chapter}: ${label}`],
      ),
    );
    expect(missing).toEqual([]);
  });
});

test("entries that it shows are such as the ledger takes", () => {
  const lines = chapters.flatMap((chapter) =>
    [...text("en", chapter).matchAll(/```jsonl\n([\s\S]*?)```/g)].flatMap(([, block]) => block!.trim().split("\n")),
  );
  expect(lines.length).toBeGreaterThan(10);
  for (const line of lines) {
    const { at, by, ...body } = JSON.parse(line) as Record<string, unknown>;
    expect(typeof at).toBe("string");
    expect(typeof by).toBe("string");
    expect(evidenceBody.safeParse(body).error?.issues, line.slice(0, 80)).toBeUndefined();
  }
  for (const language of handbookLanguages) {
    for (const chapter of chapters) {
      const blocks = (markdown: string) => [...markdown.matchAll(/```jsonl\n[\s\S]*?```/g)].map(([block]) => block);
      expect(blocks(text(language, chapter)), chapter).toEqual(blocks(text("en", chapter)));
    }
  }
});

test("commands that it names are commands", () => {
  const main = readFileSync(join(root, "src", "cli", "main.ts"), "utf8");
  const commands = new Set([...main.matchAll(/\.command\("(\w[\w-]*)/g)].map(([, name]) => name));
  for (const language of handbookLanguages) {
    for (const chapter of chapters) {
      for (const [, name, rest] of text(language, chapter).matchAll(/`stillglow ([\w-]+)([^`]*)`/g)) {
        expect(commands, `${chapter}: ${name}`).toContain(name);
        for (const [option] of rest!.matchAll(/--[\w-]+/g)) expect(main, `${chapter}: ${option}`).toContain(option);
      }
    }
  }
});

test("every screen leads to a chapter that is there, and to papers that are", () => {
  const app = readFileSync(join(root, "src", "screens", "App.tsx"), "utf8");
  const paths = [...app.matchAll(/<Route path="([^"]+)"/g)].map(([, path]) => path!.replaceAll(/:\w+/g, "x-1"));
  expect(paths.length).toBeGreaterThan(20);
  for (const path of paths) {
    const [, language, chapter] = /^\/handbook\/(\w+)\/([\w-]+)$/.exec(handbookAt(path)) ?? [];
    expect(chapter, `no chapter for ${path}; name one in src/screens/shell/handbook.ts`).toBeDefined();
    expect(language).toBe("en");
    expect(chapters, path).toContain(chapter);
    for (const paper of papersAt(path)) expect(Object.keys(calculations), path).toContain(paper);
  }
});

test("its pictures together stay small", () => {
  const folder = join(handbookFolder, "pictures");
  const bytes = readdirSync(folder, { recursive: true, encoding: "utf8" })
    .map((file) => statSync(join(folder, file)))
    .reduce((sum, file) => sum + (file.isFile() ? file.size : 0), 0);
  expect(bytes).toBeLessThan(2_200_000);
});

describe("served", () => {
  const app = fastify();
  addReadingRoutes(app);
  const get = async (url: string, headers: Record<string, string> = {}) => app.inject({ url, headers });

  test("each chapter is a page in its language, and asks for nothing from elsewhere", async () => {
    for (const language of handbookLanguages) {
      for (const chapter of chapters) {
        const { statusCode, body } = await get(`/handbook/${language}/${chapter === "index" ? "" : chapter}`);
        expect(statusCode, `${language}/${chapter}`).toBe(200);
        expect(body).toContain(`<html lang="${language}">`);
        expect(body).not.toMatch(/(?:src|href)="(?:https?:)?\/\//);
        expect(body).not.toMatch(/\.md[")#]/);
        for (const [, src] of body.matchAll(/<img src="([^"]+)"/g)) expect((await get(src!)).statusCode, src).toBe(200);
      }
    }
    expect((await get("/handbook", { "accept-language": "pl-PL,pl;q=0.9" })).headers.location).toBe("/handbook/pl/");
    expect((await get("/handbook/de/nothing-here")).statusCode).toBe(404);
    expect((await get("/handbook/de/..%2f..%2f..%2fpackage")).statusCode).toBe(404);
    expect((await get("/reading/..%2freadingRoutes.ts")).statusCode).toBe(404);
    for (const file of ["quiet.css", "light.js", "common/base.css", "fonts/bench-serif-latin.woff2"]) {
      expect((await get(`/reading/${file}`)).statusCode, file).toBe(200);
    }
  });

  test("a calculation's paper is a page, its frame in the reader's language; one that is not is said so", async () => {
    const { statusCode, body } = await get("/papers/timber.emc?language=de");
    expect(statusCode).toBe(200);
    expect(body).toContain("<h2>Unsicherheit</h2>");
    expect(body).toContain("Wood Handbook");
    expect((await get("/papers/nothing")).statusCode).toBe(404);
    expect((await get("/papers/toString")).statusCode).toBe(404);
  });
});
