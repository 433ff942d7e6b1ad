import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { drawWindows } from "../src/demo/models/windows.ts";
import bore from "../src/demo/netlists/bore.json" with { type: "json" };
import ebb from "../src/demo/netlists/ebb.json" with { type: "json" };
import flood from "../src/demo/netlists/flood.json" with { type: "json" };
import neap from "../src/demo/netlists/neap.json" with { type: "json" };

/** Draws the windows of the demo's models anew, from 4,000 units each, for their claims to rest on. */
const units = 4000;
const drawn = Object.entries({ Ebb: ebb, Neap: neap, Flood: flood, Bore: bore }).map(([model, netlist]) => [
  model,
  drawWindows(netlist, units, "windows on file"),
]);
const file = join(import.meta.dirname, "..", "src", "demo", "models", "windows.json");
writeFileSync(file, `${JSON.stringify(Object.fromEntries(drawn), null, 2)}\n`);
