import { createHash } from "node:crypto";

/**
 * What a content policy must name of a page that carries styles or scripts inside it: their very bytes, as SHA-256
 * (Content Security Policy Level 3, W3C, "hash-source").
 *
 * @returns sources for `style-src` or `script-src`, one word each; none where the page carries nothing inside
 */
export function inlineSources(page: string, tag: "style" | "script"): readonly string[] {
  return [...page.matchAll(new RegExp(`<${tag}>([\\s\\S]*?)</${tag}>`, "g"))].map(
    ([, text]) => `'sha256-${createHash("sha256").update(text!).digest("base64")}'`,
  );
}
