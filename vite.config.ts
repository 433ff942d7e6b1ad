import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

/**
 * `vite build` makes the page that the server hands out (dist/screens).
 * `vite build --mode preview` makes the page of examples that the browser tests look at (.stillglow/preview).
 */
export default defineConfig(({ mode }) => {
  const preview = mode === "preview";
  return {
    root: "src/screens",
    plugins: [react()],
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
