import { bringEveryWord, speakAsWanted } from "./languages/chosen.ts";

// Screens take their words when they are loaded, so the language comes first, as on the real page.
await speakAsWanted();
await bringEveryWord();
await import("./previewPage.tsx");
