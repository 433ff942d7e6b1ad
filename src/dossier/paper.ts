import type { Block, Layout } from "./block.ts";

/** A document to be set by Typst: its source, the data it reads, and the pictures it names. */
export interface Paper {
  readonly source: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly pictures: Readonly<Record<string, string>>;
  /** Seconds since 1970 by which the document is dated, so that the same evidence sets the same bytes. */
  readonly dated_s: number;
}

/** The layout as a document; words go in as data, never as markup. */
export function paperOf(layout: Layout): Paper {
  const pictures: Record<string, string> = {};
  const block = (one: Block) => {
    if (one.kind !== "drawing") return one;
    const { id, svg, alt, title, caption } = one.drawing;
    const path = `${id}.svg`;
    pictures[path] = svg;
    return { kind: "drawing", path, alt, title, caption };
  };
  pictures["mark.svg"] = layout.mark.svg;
  const given = {
    ...layout,
    mark: layout.mark.alt,
    front: layout.front.map(block),
    record: layout.record.map(({ title, blocks }) => ({ title, blocks: blocks.map(block) })),
  };
  const at = new Date(layout.asOf);
  return {
    source: template,
    inputs: {
      dossier: JSON.stringify(given),
      year: String(at.getUTCFullYear()),
      month: String(at.getUTCMonth() + 1),
      day: String(at.getUTCDate()),
    },
    pictures,
    dated_s: Math.floor(at.getTime() / 1000),
  };
}

/** Whole sheets of A4 drawn beforehand, one a page. */
export function sheetsPaper(title: string, sheets: readonly string[], asOf: string): Paper {
  const names = sheets.map((_, i) => `sheet-${i + 1}.svg`);
  return {
    source: `
#set document(title: ${JSON.stringify(title)})
#set page(paper: "a4", margin: 0pt)
#set text(font: "Source Serif 4", lang: "en")
${names.map((name, i) => `#image("${name}", alt: ${JSON.stringify(`${title}, sheet ${i + 1}`)}, width: 100%)`).join("\n")}
`,
    inputs: {},
    pictures: Object.fromEntries(names.map((name, i) => [name, sheets[i]!])),
    dated_s: Math.floor(Date.parse(asOf) / 1000),
  };
}

const template = `
#let d = json(bytes(sys.inputs.dossier))
#let ink = rgb("#1e1c19")
#let graphite = rgb("#57524a")
#let hair = rgb("#cfc8b9")
#let pencil = rgb("#22549b")
#let stop = rgb("#99301b")
#set document(
  title: d.title, author: d.shop,
  date: datetime(year: int(sys.inputs.year), month: int(sys.inputs.month), day: int(sys.inputs.day)),
)
#set text(font: "Source Serif 4", size: 10pt, fill: ink, lang: d.language, number-type: "lining")
#set par(leading: 0.62em, spacing: 0.85em, justify: false)
#set page(
  paper: "a4", margin: (x: 22mm, top: 20mm, bottom: 22mm),
  footer: context [
    #set text(size: 8pt, fill: graphite)
    #line(length: 100%, stroke: 0.4pt + hair)
    #v(-4pt)
    #d.foot #h(1fr) #counter(page).display() #d.pageOf #counter(page).final().first()
  ],
)
#set heading(numbering: none)
#show heading.where(level: 1): it => block(above: 0pt, below: 10pt, text(size: 26pt, weight: "regular", it.body))
#show heading.where(level: 2): it => block(above: 20pt, below: 8pt, sticky: true, text(size: 15pt, weight: "regular", it.body))
#show heading.where(level: 3): it => block(above: 13pt, below: 5pt, sticky: true, text(size: 10.5pt, weight: "semibold", it.body))
#set table(stroke: none, inset: (x: 4pt, y: 3.2pt))

#let facts(rows) = grid(
  columns: (60mm, 1fr), row-gutter: 5pt, column-gutter: 6pt,
  ..rows.map(row => (text(fill: graphite, row.at(0)), {
    set text(hyphenate: false)
    if row.at(1).len() > 48 and not row.at(1).contains(" ") { text(size: 7.5pt, row.at(1)) } else { row.at(1) }
  })).flatten()
)

#let figures(one) = {
  let n = one.head.len()
  set text(size: if n > 5 { 8pt } else { 9.5pt })
  table(
    columns: if n == 7 { (2.3fr, 1.5fr, 1.6fr, 1.35fr, 2.1fr, 1.25fr, 0.95fr) }
      else if n == 6 { (1fr, 1fr, 1.2fr, 1.1fr, 1.1fr, 1.6fr) }
      else if n == 3 { (1fr, 1.6fr, 2.4fr) }
      else if n == 2 { (auto, auto) }
      else if one.right.at(1) { (2.2fr, 1.3fr, 1.5fr, 1.4fr) }
      else { (auto, auto, 1fr, auto) },
    align: (x, _) => if one.right.at(x) { right } else { left },
    table.hline(stroke: 0.8pt + ink),
    table.header(..one.head.map(word => text(fill: graphite, style: "italic", word))),
    table.hline(stroke: 0.4pt + hair),
    ..one.rows.map(row => row).flatten(),
    table.hline(stroke: 0.4pt + hair),
  )
}

#let show-block(one) = {
  if one.kind == "heading" {
    if "state" in one and one.state != none {
      heading(level: 3)[#one.text #h(1fr) #text(
        weight: "regular", style: "italic",
        fill: if one.state == "refuted" { stop } else { graphite }, one.stands,
      )]
    } else { heading(level: 3, one.text) }
  } else if one.kind == "words" {
    if one.tone == "caution" {
      block(inset: (left: 8pt, y: 1pt), above: 9pt, stroke: (left: 2pt + ink), one.text)
    } else if one.tone == "stop" {
      block(inset: (left: 8pt), stroke: (left: 2pt + stop), text(fill: stop, weight: "semibold", one.text))
    } else if one.tone == "quiet" { text(size: 9pt, fill: graphite, one.text) + parbreak() } else { par(one.text) }
  } else if one.kind == "cautions" {
    grid(
      columns: (1fr, 1fr), column-gutter: 8mm, row-gutter: 8pt,
      ..one.rows.map(row => block(inset: (left: 8pt, y: 1pt), stroke: (left: 2pt + ink), text(size: 9pt, row)))
    )
  } else if one.kind == "lines" {
    v(26pt)
    grid(
      columns: one.rows.map(_ => 1fr), column-gutter: 14mm,
      ..one.rows.map(row => block(width: 100%, stroke: (top: 0.6pt + ink), inset: (top: 4pt), text(size: 9pt, fill: graphite, row)))
    )
  } else if one.kind == "facts" { facts(one.rows) } else if one.kind == "table" { figures(one) } else {
    block(breakable: false, below: 16pt)[
      #heading(level: 3, one.title)
      #image(one.path, alt: one.alt, width: 100%)
      #text(size: 8.5pt, fill: graphite, one.caption)
    ]
  }
}

// The page in front: wider rows, the picture low, cautions side by side.
#let show-front(one) = {
  if one.kind == "table" {
    set text(size: 10pt)
    table(
      columns: (1fr, auto, auto, auto), inset: (x: 0pt, y: 3.6pt), column-gutter: 14pt,
      align: (x, _) => if one.right.at(x) { right } else { left },
      table.hline(stroke: 0.8pt + ink),
      table.header(..one.head.map(word => text(fill: graphite, style: "italic", word))),
      table.hline(stroke: 0.4pt + hair),
      ..one.rows.map(row => row).flatten(),
      table.hline(stroke: 0.4pt + hair),
    )
  } else if one.kind == "drawing" {
    block(above: 14pt, below: 6pt)[
      #image(one.path, alt: one.alt, width: 100%)
      #v(-6pt)
      #text(size: 8.5pt, fill: graphite)[#one.title. #one.caption]
    ]
  } else { show-block(one) }
}

#text(style: "italic", size: 14pt, d.shop)
#v(4pt)
#grid(
  columns: (1fr, auto), align: (left + top, right + top), column-gutter: 10mm,
  [
    #show heading: it => block(above: 0pt, below: 12pt, text(size: 40pt, weight: "regular", tracking: -0.4pt, it.body))
    = #d.title
    #set par(leading: 0.55em)
    #text(size: 12pt, d.subtitle)
  ],
  block(stroke: 1pt + ink, radius: 2pt, inset: (x: 12pt, y: 10pt))[
    #set text(size: 10pt)
    #set align(center)
    #d.plate.map(row => text(number-width: "tabular", row)).join(linebreak())
  ],
)
#v(6pt)
#line(length: 100%, stroke: 1.2pt + ink)
#{
  set text(size: 10.5pt)
  let signed = d.front.filter(one => one.kind == "lines")
  for one in d.front.filter(one => one.kind != "lines") { show-front(one) }
  v(1fr)
  grid(
    columns: (1fr, auto), align: (left + bottom, right + bottom), column-gutter: 14mm,
    if signed.len() > 0 { for one in signed { show-block(one) } } else { [] },
    image("mark.svg", alt: d.mark, width: 13mm),
  )
}
#for sheet in d.record {
  if sheet == d.record.first() { pagebreak() }
  // What is signed stays on one page.
  block(width: 100%, above: 20pt, breakable: sheet.blocks.all(one => one.kind != "lines"))[
    #heading(level: 2, sheet.title)
    #for one in sheet.blocks { show-block(one) }
  ]
}
`;
