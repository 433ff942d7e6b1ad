import type { Calculation } from "../../calculations/calculation.ts";
import { answerFields, type DescribedField, doubtFields, inputFields } from "../../calculations/describe.ts";
import { escaped, quietPage } from "./quietPage.ts";
import { type HandbookLanguage, readingWords } from "./words.ts";

const at = (name: string, language: HandbookLanguage) =>
  `/papers/${encodeURIComponent(name)}${language === "en" ? "" : `?language=${language}`}`;

/** A calculation's paper as a page: its own record and nothing besides. */
export function paperPage(paper: Calculation, language: HandbookLanguage): string {
  const words = readingWords[language];
  const english = language === "en" ? "" : ' lang="en"';
  const part = (title: string, body: string) => `<h2>${escaped(title)}</h2>\n${body}`;
  const list = (lines: readonly string[]) =>
    `<ul${english}>${lines.map((line) => `<li>${prose(line)}</li>`).join("")}</ul>`;
  const table = (title: string, rows: readonly DescribedField[]) =>
    `<div class="wide" role="region" tabindex="0" aria-label="${escaped(title)}"><table${english}><thead><tr><th scope="col">${escaped(words.field)}</th><th scope="col">${escaped(words.what)}</th></tr></thead><tbody>${rows
      .map(
        ({ name, isOptional, what }) =>
          `<tr><th scope="row"><code>${escaped(name)}${isOptional ? "?" : ""}</code></th><td>${prose(what)}</td></tr>`,
      )
      .join("")}</tbody></table></div>`;
  const doubts = [
    ...sentences(paper.validity).filter((one) => /doubt|interval|half-width|estimate|within a|good to/i.test(one)),
    ...doubtFields(paper).map(({ path, what }) => `\`${path}\`: ${what}`),
  ];
  return quietPage({
    language,
    title: paper.name,
    inLanguage: (other) => at(paper.name, other),
    body: [
      `<h1>${escaped(paper.name)}</h1>`,
      `<p${english}>${escaped(paper.title)}.</p>`,
      words.inEnglish === "" ? "" : `<p class="quiet">${escaped(words.inEnglish)}</p>`,
      paper.cautions.length === 0
        ? ""
        : `<div class="caution" role="note"${english}>${paper.cautions.map((one) => `<p>${escaped(one)}</p>`).join("")}</div>`,
      part(
        words.formula,
        paper.formula
          ? `<pre class="formula">${paper.formula.map((line) => `<span>${escaped(line)}</span>`).join("")}</pre>`
          : `<p>${escaped(words.noFormula)}</p>`,
      ),
      part(words.validity, `<p${english}>${prose(paper.validity)}</p>`),
      part(words.doubt, `<p>${escaped(words.doubtAlways)}</p>${doubts.length > 0 ? list(doubts) : ""}`),
      part(words.sources, list(paper.sources)),
      part(words.input, table(words.input, inputFields(paper))),
      part(words.answer, table(words.answer, answerFields(paper))),
      part(
        words.byHand,
        `<pre tabindex="0">stillglow calc ${escaped(paper.name)} --schema\nstillglow calc ${escaped(paper.name)} --in FILE</pre>`,
      ),
    ].join("\n"),
  });
}

/** Every paper there is, one a line. */
export function papersPage(papers: readonly Pick<Calculation, "name" | "title">[], language: HandbookLanguage): string {
  const words = readingWords[language];
  const rows = papers.map(
    ({ name, title }) =>
      `<tr><th scope="row"><a href="${at(name, language)}">${escaped(name)}</a></th><td${language === "en" ? "" : ' lang="en"'}>${escaped(title)}</td></tr>`,
  );
  return quietPage({
    language,
    title: words.papers,
    inLanguage: (other) => `/papers?language=${other}`,
    body: `<h1>${escaped(words.papers)}</h1>\n<p>${escaped(words.papersLead)}</p>\n<table><tbody>${rows.join("\n")}</tbody></table>`,
  });
}

/** What a paper says, names of fields set as such. */
const prose = (text: string): string => escaped(text).replaceAll(/`([^`]+)`/g, "<code>$1</code>");

const sentences = (text: string): readonly string[] => text.split(/(?<=[.;]) (?=[A-Z])/);
