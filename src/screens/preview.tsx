import { bringEveryWord, speakAsWanted } from "./languages/chosen.ts";
import { drawIn, lightWanted } from "./shell/light.ts";

// Screens take their words when they are loaded, so the language comes first, as on the real page.
drawIn(lightWanted());
await speakAsWanted();
await bringEveryWord();
await import("./previewPage.tsx");
