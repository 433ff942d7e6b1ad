import { type HandbookLanguage, handbookLanguages, nameOfLanguage, readingWords } from "./words.ts";

/** A page to read: paper and ink, no fetching, good in print and on a phone. */
export interface QuietPage {
  readonly language: HandbookLanguage;
  readonly title: string;
  /** The page as HTML. */
  readonly body: string;
  /** Language of the body, where it isn't that of the frame. */
  readonly bodyLanguage?: string;
  /** Where the page stands in each language. */
  readonly inLanguage: (language: HandbookLanguage) => string;
  /** Other pages of the same book, in order; the one at hand is marked. */
  readonly contents?: readonly { readonly href: string; readonly title: string; readonly isHere: boolean }[];
}

export const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

const link = (href: string, words: string, more = "") => `<a href="${escaped(href)}"${more}>${escaped(words)}</a>`;

/** The whole page; its fonts, colours and light are those of the screens. */
export function quietPage({ language, title, body, bodyLanguage, inLanguage, contents = [] }: QuietPage): string {
  const words = readingWords[language];
  const here = contents.findIndex(({ isHere }) => isHere);
  const [before, after] = here < 0 ? [] : [contents[here - 1], contents[here + 1]];
  const list = contents.map(
    ({ href, title: name, isHere }) => `<li>${link(href, name, isHere ? ' aria-current="page"' : "")}</li>`,
  );
  const book = `<details class="book"><summary>${escaped(words.contents)}</summary><ol>${list.join("")}</ol></details>`;
  const ways = [
    ...(before ? [link(before.href, `← ${before.title}`, ' rel="prev"')] : []),
    ...(after ? [link(after.href, `${after.title} →`, ' rel="next"')] : []),
  ];
  const others = handbookLanguages
    .map((tag) =>
      tag === language
        ? `<span aria-current="true">${nameOfLanguage[tag]}</span>`
        : link(inLanguage(tag), nameOfLanguage[tag], ` lang="${tag}" hreflang="${tag}"`),
    )
    .join(" ");
  return `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)} · Stillglow</title>
<link rel="stylesheet" href="/reading/common/base.css">
<link rel="stylesheet" href="/reading/quiet.css">
<script src="/reading/light.js"></script>
</head>
<body>
<a class="skip" href="#page">${escaped(words.skip)}</a>
<header class="quiet-head">
<p>${link("/", words.back)} ${link(`/handbook/${language}/`, words.handbook)} ${link(`/papers?language=${language}`, words.papers)}</p>
<nav aria-label="${escaped(words.language)}">${others}</nav>
</header>
<main id="page"${bodyLanguage === undefined ? "" : ` lang="${bodyLanguage}"`}>
${contents.length > 0 ? book : ""}
<article>
${body}
</article>
${ways.length > 0 ? `<nav class="ways" aria-label="${escaped(words.ways)}">${ways.join(" ")}</nav>` : ""}
</main>
</body>
</html>
`;
}
