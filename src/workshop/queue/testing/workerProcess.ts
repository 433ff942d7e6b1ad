import { PostgresEngine } from "../../../store/postgres/engine.ts";
import { startWorker } from "../worker.ts";

/** A worker of its own, meant to be killed. */
const [database, folder] = process.argv.slice(2);
await startWorker({ engine: await PostgresEngine.open(database!), folder: folder!, atOnce: 1 });
process.stdout.write("at work\n");
