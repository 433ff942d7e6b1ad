import type { Queries } from "./engine.ts";
import { build } from "./tables.ts";

/** Names and secrets of people, and who is signed in: all outside the chain, so that it can be erased. */
export async function makePeopleTables(queries: Queries): Promise<void> {
  const { schema } = build;
  await queries.do(
    schema
      .createTable("person")
      .addColumn("person", "text", (c) => c.primaryKey())
      .addColumn("name", "text", (c) => c.notNull())
      .addColumn("secret", "text", (c) => c.notNull()),
  );
  await queries.do(
    schema
      .createTable("session")
      .addColumn("token_sha256", "text", (c) => c.primaryKey())
      .addColumn("person", "text", (c) => c.notNull())
      .addColumn("begun_at", "text", (c) => c.notNull())
      .addColumn("seen_at", "text", (c) => c.notNull()),
  );
  await queries.do(schema.createIndex("session_by_person").on("session").column("person"));
}
