import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";
import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";

const brotlied = promisify(brotliCompress);
const gzipped = promisify(gzip);

/** Lays beside each text of the built page what the server hands out instead, so that nothing is compressed twice. */
function compressOnce(): Plugin {
  let folder = "";
  return {
    name: "compress-once",
    apply: "build",
    configResolved: ({ root, build }) => {
      folder = resolve(root, build.outDir);
    },
    closeBundle: async () => {
      const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).map((file) => join(folder, file));
      const texts = files.filter((file) => /\.(?:js|css|html)$/.test(file) && statSync(file).size > 1000);
      await Promise.all(
        texts.map(async (file) => {
          const text = readFileSync(file);
          const size = { [constants.BROTLI_PARAM_SIZE_HINT]: text.length };
          writeFileSync(`${file}.br`, await brotlied(text, { params: size }));
          writeFileSync(`${file}.gz`, await gzipped(text, { level: 9 }));
        }),
      );
    },
  };
}

/** What a style sheet says between its two marks, as the page itself carries it. */
function firstPainted(sheet: string): string {
  const [, inside] = /\/\* First painted: [^*]*\*\/([\s\S]*?)\/\* That was first painted\. \*\//.exec(sheet) ?? [];
  if (inside === undefined) throw new Error("a style sheet of the first paint has lost its marks");
  return inside.replaceAll(/\/\*[\s\S]*?\*\//g, "").replaceAll(/\s+/g, " ");
}

/**
 * Paper, name and light stand in the page itself, so that it is painted as it comes; style sheets and scripts are named
 * at its end. A module script waits for the style sheets before it.
 */
function paintFirst(): Plugin {
  let read = (_file: string) => "";
  return {
    name: "paint-first",
    configResolved: ({ root }) => {
      read = (file) => readFileSync(resolve(root, file), "utf8");
    },
    transformIndexHtml: {
      order: "post",
      handler: (html) => {
        const sheets = html.match(/<link rel="stylesheet"[^>]*>/g) ?? [];
        const scripts = html.match(/<script type="module"[^>]*><\/script>|<link rel="modulepreload"[^>]*>/g) ?? [];
        const parts = [...sheets, ...scripts];
        const page = parts.reduce((text, part) => text.replace(part, ""), html).replaceAll(/^\s*\n/gm, "");
        const style = ["common/base.css", "shell/shell.css"].map((file) => firstPainted(read(file))).join("");
        return page
          .replace("</title>", () => `</title><style>${style}</style><script>${read("shell/firstLight.js")}</script>`)
          .replace("</body>", () => `${parts.join("\n")}\n</body>`);
      },
    },
  };
}

/**
 * `vite build` makes the page that the server hands out (dist/screens).
 * `vite build --mode preview` makes the page of examples that the browser tests look at (.stillglow/preview).
 */
export default defineConfig(({ mode }) => {
  const preview = mode === "preview";
  return {
    root: "src/screens",
    plugins: [react(), paintFirst(), ...(preview ? [] : [compressOnce()])],
    build: {
      outDir: preview ? "../../.stillglow/preview" : "../../dist/screens",
      emptyOutDir: true,
      assetsInlineLimit: 0,
      chunkSizeWarningLimit: 600,
      rolldownOptions: { input: preview ? "src/screens/preview.html" : "src/screens/index.html" },
    },
    server: { proxy: { "/api": "http://127.0.0.1:4170" } },
  };
});
