import type { Block, Layout } from "./block.ts";
import { escaped } from "./drawings/drawing.ts";

/** Font files (WOFF2) that the page carries inside itself. */
export interface PageFonts {
  readonly upright: Uint8Array;
  readonly italic: Uint8Array;
  /** For letters beyond western Europe's. */
  readonly uprightMore: Uint8Array;
  readonly italicMore: Uint8Array;
  /** For the signs of ohm and micro. */
  readonly greek: Uint8Array;
}

/** The layout as one HTML file that needs nothing beside it: fonts and pictures are inside. */
export function pageOf(layout: Layout, fonts: PageFonts): string {
  const { language, title, shop, subtitle, plate, front, record, mark, foot } = layout;
  return `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>
${face("normal", fonts.upright)}
${face("italic", fonts.italic)}
${face("normal", fonts.uprightMore, more)}
${face("italic", fonts.italicMore, more)}
${face("normal", fonts.greek, "U+0370-03FF")}
${style}
</style>
</head>
<body>
<main>
<header>
<div><p class="shop">${escaped(shop)}</p><h1>${escaped(title)}</h1><p>${escaped(subtitle)}</p></div>
<p class="plate">${plate.map(escaped).join("<br>")}</p>
</header>
${front.map(block).join("\n")}
${record.map(({ title: sheet, blocks }) => `<section>\n<h2>${escaped(sheet)}</h2>\n${blocks.map(block).join("\n")}\n</section>`).join("\n")}
<footer><span>${escaped(foot)}</span>${mark.svg.replace("<svg ", `<svg class="mark" role="img" aria-label="${escaped(mark.alt)}" `)}</footer>
</main>
</body>
</html>
`;
}

function block(one: Block): string {
  switch (one.kind) {
    case "heading": {
      const state =
        one.state === undefined ? "" : ` <span class="state ${one.state}">${escaped(one.stands ?? one.state)}</span>`;
      return `<h3>${escaped(one.text)}${state}</h3>`;
    }
    case "words":
      return `<p class="${one.tone}">${escaped(one.text)}</p>`;
    case "facts":
      return `<dl>${one.rows.map(([name, value]) => `<dt>${escaped(name)}</dt><dd>${escaped(value)}</dd>`).join("")}</dl>`;
    case "table": {
      const side = (i: number) => (one.right[i] ? ' class="right"' : "");
      const head = one.head.map((word, i) => `<th scope="col"${side(i)}>${escaped(word)}</th>`).join("");
      const rows = one.rows.map(
        (row) =>
          `<tr>${row.map((cell, i) => (i === 0 ? `<th scope="row">${escaped(cell)}</th>` : `<td${side(i)}>${escaped(cell)}</td>`)).join("")}</tr>`,
      );
      return `<div class="wide" role="region" tabindex="0" aria-label="${escaped(one.title)}"><table><thead><tr>${head}</tr></thead><tbody>${rows.join("")}</tbody></table></div>`;
    }
    case "cautions":
      return `<div class="cautions">${one.rows.map((row) => `<p class="caution">${escaped(row)}</p>`).join("")}</div>`;
    case "lines":
      return `<div class="lines">${one.rows.map((row) => `<p>${escaped(row)}</p>`).join("")}</div>`;
    case "drawing": {
      const { id, title, alt, caption, svg } = one.drawing;
      const shown = svg.replace("<svg ", `<svg role="img" aria-labelledby="${id}-told" `);
      const told = shown.replace(">", `><title id="${id}-told">${escaped(alt)}</title>`);
      return `<figure><h3>${escaped(title)}</h3>${told}<figcaption>${escaped(caption)}</figcaption></figure>`;
    }
  }
}

function face(
  slant: "normal" | "italic",
  bytes: Uint8Array,
  range = "U+0000-00FF,U+0131,U+0152-0153,U+2000-22FF",
): string {
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return `@font-face{font-family:"Source Serif 4";font-style:${slant};font-weight:400 700;src:url(data:font/woff2;base64,${btoa(binary)}) format("woff2");unicode-range:${range}}`;
}

/** Letters that the fonts of western Europe lack. */
const more = "U+0100-0130,U+0132-0151,U+0154-024F";

const style = `
:root{color-scheme:light}
body{margin:0;background:#f6f4ee;color:#1e1c19;font:400 1.05rem/1.45 "Source Serif 4",Charter,Georgia,serif}
main{max-width:52rem;margin:0 auto;padding:2rem clamp(1rem,4vw,3rem);background:#fffefb}
header{display:flex;flex-wrap:wrap;gap:1rem;justify-content:space-between;align-items:start}
.shop{font-style:italic;margin:0}
h1{font-weight:400;font-size:clamp(2rem,1.4rem + 2.6vw,3rem);line-height:1.1;margin:0}
h2{font-weight:400;font-size:1.55rem;margin:2.2rem 0 .6rem;border-top:1px solid #1e1c19;padding-top:.8rem}
h3{font-size:1.05rem;margin:1.4rem 0 .3rem;display:flex;gap:1rem;justify-content:space-between}
h3 .state{font-weight:400;font-style:italic;color:#57524a}h3 .refuted{color:#99301b}
p{margin:.4rem 0;overflow-wrap:anywhere}
.plate{border:1.5px solid #1e1c19;border-radius:3px;padding:.7rem 1.1rem;text-align:center;white-space:pre}
.quiet{color:#57524a}.caution{border-left:3px solid #1e1c19;padding-left:.8rem}
.stop{border-left:3px solid #99301b;padding-left:.8rem;color:#99301b;font-weight:600}
dl{display:grid;grid-template-columns:minmax(8rem,14rem) 1fr;gap:.2rem 1rem;margin:.3rem 0}
dt{color:#57524a}dd{margin:0;overflow-wrap:anywhere}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:.92rem;border-top:1.5px solid #1e1c19}
th,td{text-align:left;font-weight:400;padding:.25rem .6rem .25rem 0;vertical-align:top}
thead th{color:#57524a;font-style:italic;border-bottom:1px solid #cfc8b9}
.right{text-align:right;white-space:nowrap}
figure{margin:1rem 0}svg{width:100%;height:auto}figcaption{color:#57524a;font-size:.92rem}
.lines{display:flex;flex-wrap:wrap;gap:0 3rem;margin-top:2.4rem}.lines p{flex:1 1 14rem;border-top:1px solid #1e1c19;color:#57524a;font-size:.92rem}
.cautions{display:grid;grid-template-columns:repeat(auto-fit,minmax(17rem,1fr));gap:.4rem 2rem}
.mark{width:3.4rem;flex:none}
footer{display:flex;gap:1rem;justify-content:space-between;align-items:end;padding-top:.8rem;margin-top:3rem;border-top:1px solid #cfc8b9;color:#57524a;font-size:.85rem}
@media print{body,main{background:#fff}main{padding:0;max-width:none}h3,h2{break-after:avoid}figure,tr{break-inside:avoid}}
`;
