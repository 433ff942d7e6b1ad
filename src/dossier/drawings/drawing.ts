/** A picture of the record: drawn as SVG, told in words for whoever can't see it. */
export interface Drawing {
  readonly id: string;
  readonly title: string;
  /** What the picture shows, in a sentence that stands without it. */
  readonly alt: string;
  readonly caption: string;
  readonly svg: string;
}

export const ink = "#1e1c19";
export const graphite = "#57524a";
export const hair = "#cfc8b9";
/** What was computed is drawn in pencil blue, as on the screens. */
export const pencil = "#22549b";
export const stop = "#99301b";

const font = "Source Serif 4";

export const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

/** A number for a path: two decimals are a hundredth of a point. */
export const p = (value: number): string => String(Number(value.toFixed(2)));

export interface Lettering {
  readonly size?: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly colour?: string;
  readonly italic?: boolean;
}

export function letters(x: number, y: number, text: string, lettering: Lettering = {}): string {
  const { size = 9, anchor = "start", colour = graphite, italic = false } = lettering;
  const style = italic ? ' font-style="italic"' : "";
  return `<text x="${p(x)}" y="${p(y)}" font-family="${font}" font-size="${size}" text-anchor="${anchor}" fill="${colour}"${style}>${escaped(text)}</text>`;
}

export function line(path: string, colour: string, width: number, more = ""): string {
  return `<path d="${path}" fill="none" stroke="${colour}" stroke-width="${width}"${more}/>`;
}

export function svg(width: number, height: number, parts: readonly string[]): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${parts.join("")}</svg>`;
}
