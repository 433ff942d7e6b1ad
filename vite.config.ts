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

/**
 * `vite build` makes the page that the server hands out (dist/screens).
 * `vite build --mode preview` makes the page of examples that the browser tests look at (.stillglow/preview).
 */
export default defineConfig(({ mode }) => {
  const preview = mode === "preview";
  return {
    root: "src/screens",
    plugins: [react(), ...(preview ? [] : [compressOnce()])],
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
