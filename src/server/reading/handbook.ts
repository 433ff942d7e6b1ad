import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Marked } from "marked";
import { escaped, quietPage } from "./quietPage.ts";
import type { HandbookLanguage } from "./words.ts";

/** The handbook as it is written: `docs/handbook/LANGUAGE/CHAPTER.md`, pictures in `docs/handbook/pictures/LANGUAGE`. */
export const handbookFolder = join(import.meta.dirname, "..", "..", "..", "docs", "handbook");

const chapterName = /^[a-z][a-z-]{0,40}$/;

export function chapterText(language: HandbookLanguage, chapter: string): string | undefined {
  const file = join(handbookFolder, language, `${chapter}.md`);
  return chapterName.test(chapter) && existsSync(file) ? readFileSync(file, "utf8") : undefined;
}

/** The chapters in the order in which the contents name them, the contents first. */
export function chaptersOf(language: HandbookLanguage): readonly string[] {
  const contents = chapterText(language, "index") ?? "";
  return ["index", ...new Set([...contents.matchAll(/\]\(([a-z-]+)\.md\)/g)].map(([, chapter]) => chapter!))];
}

export const titleOf = (text: string): string => /^# (.+)$/m.exec(text)?.[1]?.trim() ?? "";

/** A chapter as a page of its own; nothing where there is no such chapter. */
export function handbookPage(language: HandbookLanguage, chapter: string): string | undefined {
  const text = chapterText(language, chapter);
  if (text === undefined) return undefined;
  const at = (name: string) => `/handbook/${language}/${name === "index" ? "" : name}`;
  return quietPage({
    language,
    title: titleOf(text),
    body: rendered(text),
    inLanguage: (other) => `/handbook/${other}/${chapter === "index" ? "" : chapter}`,
    contents: chaptersOf(language).map((name) => ({
      href: at(name),
      title: titleOf(chapterText(language, name) ?? ""),
      isHere: name === chapter,
    })),
  });
}

/** Markdown as HTML: links among chapters as their addresses, what stands indented by `>` as a caution. */
function rendered(text: string): string {
  const marked = new Marked({ gfm: true });
  marked.use({
    renderer: {
      link({ href, tokens }) {
        const inside = this.parser.parseInline(tokens);
        const to = href.replace(/^index\.md(?=#|$)/, "./").replace(/\.md(?=#|$)/, "");
        return `<a href="${escaped(to)}">${inside}</a>`;
      },
      image({ href, text: alt }) {
        const [, folder, file] = /^\.\.\/pictures\/([a-z]{2})\/([\w-]+\.webp)$/.exec(href) ?? [];
        const from = file === undefined ? href : `/handbook/pictures/${folder}/${file}`;
        return `<img src="${escaped(from)}" alt="${escaped(alt)}" loading="lazy">`;
      },
      code({ text: lines }) {
        return `<pre tabindex="0"><code>${escaped(lines)}</code></pre>`;
      },
      blockquote({ tokens }) {
        return `<div class="caution" role="note"><div>${this.parser.parse(tokens)}</div></div>`;
      },
      heading({ tokens, depth, text: words }) {
        const id = words
          .toLowerCase()
          .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
          .replaceAll(/^-|-$/g, "");
        return `<h${depth} id="${escaped(id)}">${this.parser.parseInline(tokens)}</h${depth}>`;
      },
    },
  });
  return marked.parse(text, { async: false });
}
