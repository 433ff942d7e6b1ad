// node --import tsx scripts/untold.ts --data FOLDER [--few] [--record]
// Every composed sentence that the screens of this workshop show and a language can't say yet, as patterns to fill in.
// A whole walk takes minutes; --few asks for a few of each kind only. --record keeps one sentence of each form in
// tests/languages/spoken.json, which the suite holds every language against without computing anything.
import { writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { buildServer } from "../src/server/server.ts";
import { openWorkshop } from "../src/workshop/workshop.ts";
import { houseOfRefusals, refusalsInSource } from "../tests/languages/refusals.ts";
import { languagesHere, oneOfEachForm, untold } from "../tests/languages/untold.ts";
import { spokenByShop } from "../tests/languages/walk.ts";

const { values } = parseArgs({
  options: {
    data: { type: "string" },
    few: { type: "boolean", default: false },
    record: { type: "boolean", default: false },
  },
});
if (values.data === undefined) throw new Error("name the workshop's folder: --data FOLDER");

const workshop = await openWorkshop(values.data, { write: false });
const app = await buildServer({ workshop });
const ask = async (url: string) => (await app.inject({ url })).json() as unknown;
const answers = await spokenByShop(ask, { whole: !values.few });
if (values.record) {
  const kept = oneOfEachForm(answers).map(({ where, sentence }) => [where, sentence]);
  writeFileSync(new URL("../tests/languages/spoken.json", import.meta.url), `${JSON.stringify(kept, undefined, 1)}\n`);
}
const spoken = [...answers, ...refusalsInSource(houseOfRefusals)];
for (const language of await languagesHere()) {
  const missing = untold(language, spoken);
  console.log(`${language.tag}: ${missing.length} missing`);
  for (const line of missing) console.log(`  ${line}`);
}
await app.close();
await workshop.close();
