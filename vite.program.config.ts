import { dirname, join, relative } from "node:path";
import { defineConfig, type Plugin } from "vite";
import { entries, root, stampOf } from "./scripts/program.mjs";

/** What finds files of its own beside itself, such as native code or threads, stays where the lock file put it. */
const unbundled = [
  "@expo-google-fonts/source-serif-4",
  "@myriaddreamin/typst-ts-node-compiler",
  "highs",
  "libsql",
  "pg-native",
  "piscina",
  "serialport",
];

/** `vite build --config vite.program.config.ts --outDir dist/program/NAME`: command, server and threads, for Node. */
export default defineConfig({
  plugins: [takeSources()],
  publicDir: false,
  ssr: { noExternal: true, external: unbundled },
  build: {
    ssr: true,
    target: "node20",
    sourcemap: true,
    minify: false,
    emptyOutDir: true,
    rolldownOptions: {
      input: Object.fromEntries(Object.entries(entries).map(([name, path]) => [name, join(root, path)])),
      output: {
        entryFileNames: "[name].js",
        chunkFileNames: "[name]-[hash].js",
        sourcemapExcludeSources: true,
        minify: { compress: false, mangle: false, codegen: { removeWhitespace: true } },
      },
    },
  },
});

/** Reads the sources, keeps their places, and notes in `stamp.json` what the build was made from. */
function takeSources(): Plugin {
  const about = ["package-lock.json", "tsconfig.json", "vite.program.config.ts", "scripts/program.mjs"];
  // npm's own record of what is installed, renewed whenever that changes.
  const installed = "node_modules/.package-lock.json";
  const sources: Record<string, object> = {};
  const take = (path: string) => {
    const { bytes, stamp } = stampOf(path);
    sources[path] = stamp;
    return bytes.toString("utf8");
  };
  return {
    name: "take-sources",
    buildStart() {
      for (const path of [...about, installed]) take(path);
    },
    load: {
      order: "pre",
      handler(id) {
        const path = relative(root, id).replaceAll("\\", "/");
        if (id.startsWith("\0") || path.startsWith("..") || path.includes("node_modules/") || path.includes("?"))
          return undefined;
        const code = take(path);
        if (!path.startsWith("src/")) return code;
        const isEntry = Object.values(entries).includes(path);
        return `${isEntry ? `import ${JSON.stringify(join(root, "scripts/sourceLines.mjs"))}; ` : ""}${inPlace(code, path)}`;
      },
    },
    generateBundle() {
      this.emitFile({ type: "asset", fileName: "stamp.json", source: JSON.stringify(sources) });
    },
  };
}

/**
 * A module finds its fonts, styles and chapters from where its source stands, in whichever file of the build it is:
 * dist/program/NAME, three folders below the project. Threads alone are started from the build.
 */
function inPlace(code: string, path: string): string {
  const folder = `import.meta.dirname.replace(/([\\\\/][^\\\\/]+){3}$/, ${JSON.stringify(`/${dirname(path)}`)})`;
  const address = `import.meta.url.replace(/([/][^/]+){4}$/, ${JSON.stringify(`/${path}`)})`;
  return code
    .replaceAll("import.meta.dirname", folder)
    .replace(/new URL\("\.\/(\w+)\.mjs", import\.meta\.url\)|import\.meta\.url/g, (_found, thread?: string) =>
      thread === undefined ? address : `new URL("./${thread}.js", import.meta.url)`,
    );
}
