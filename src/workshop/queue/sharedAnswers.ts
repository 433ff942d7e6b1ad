import type { PostgresEngine } from "../../store/postgres/engine.ts";
import { questionKey } from "../answerCache.ts";

/** Answers kept in a shared database, under the hash of their question; what one machine computed serves all. */
export class SharedAnswers {
  readonly keyOf = questionKey;

  constructor(private readonly engine: PostgresEngine) {}

  async get(key: string): Promise<unknown> {
    const [row] = await this.engine.rows<{ output: string }>("SELECT output FROM answer WHERE key = $1", [key]);
    return row === undefined ? undefined : JSON.parse(row.output);
  }

  async put(key: string, output: unknown): Promise<void> {
    const keep = "INSERT INTO answer (key, output) VALUES ($1, $2) ON CONFLICT DO NOTHING";
    await this.engine.rows(keep, [key, JSON.stringify(output)]);
  }
}
