import { QueryClient, QueryClientProvider } from "@tanstack/react-query";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { Trouble } from "./common/api.ts";
import "./common/base.css";
import { speakAsWanted } from "./languages/chosen.ts";
import "./shell/shell.css";

// A refusal stays a refusal; only a machine that didn't answer is asked again.
const client = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: 10_000,
      retry: (count, error) => count < 2 && !(error instanceof Trouble && error.status >= 400),
    },
  },
});

// Screens take their words when they are loaded, so the language comes first.
await speakAsWanted();
const { App } = await import("./App.tsx");
const { Door } = await import("./people/SignIn.tsx");

const root = document.getElementById("root");
if (!root) throw new Error("The page has no element with the id root");
createRoot(root).render(
  <StrictMode>
    <QueryClientProvider client={client}>
      <Door>
        <App />
      </Door>
    </QueryClientProvider>
  </StrictMode>,
);
