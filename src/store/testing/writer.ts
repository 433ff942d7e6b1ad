import { writeSync } from "node:fs";
import { openStore } from "../store.ts";
import { headphone } from "./entries.ts";

/** Writes entries for ever, telling of each once the store has acknowledged it; meant to be killed. */
const [folder, round, database] = process.argv.slice(2);
const store = await openStore(folder!, { database });
for (let i = 0; ; i += 1) {
  const [written] = await store.append([headphone(`h${round}-${i}`)]);
  writeSync(1, `${written!.id} ${written!.seq}\n`);
}
