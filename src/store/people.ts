import type { Engine } from "./engine.ts";
import { build, type PersonTable, type SessionTable } from "./tables.ts";

/** Names, secrets and sessions of people, whom the chain knows by an id alone. */
export class People {
  private readonly engine: Engine;

  constructor(engine: Engine) {
    this.engine = engine;
  }

  async put(person: PersonTable): Promise<void> {
    const { name, secret } = person;
    await this.engine.do(
      build
        .insertInto("person")
        .values(person)
        .onConflict((conflict) => conflict.column("person").doUpdateSet({ name, secret })),
    );
  }

  async get(person: string): Promise<PersonTable | undefined> {
    const [found] = await this.engine.all(build.selectFrom("person").selectAll().where("person", "=", person));
    return found;
  }

  all(): Promise<readonly PersonTable[]> {
    return this.engine.all(build.selectFrom("person").selectAll().orderBy("person"));
  }

  /** Erases name, secret and sessions from the database's files too; acts keep the id. */
  async forget(person: string): Promise<void> {
    await this.endSessions(person);
    await this.engine.do(build.deleteFrom("person").where("person", "=", person));
    for (const table of ["person", "session"]) await this.engine.scrub(table);
  }

  async beginSession(session: SessionTable): Promise<void> {
    await this.engine.do(build.insertInto("session").values(session));
  }

  async session(token_sha256: string): Promise<SessionTable | undefined> {
    const find = build.selectFrom("session").selectAll().where("token_sha256", "=", token_sha256);
    const [found] = await this.engine.all(find);
    return found;
  }

  sessions(): Promise<readonly SessionTable[]> {
    return this.engine.all(build.selectFrom("session").selectAll().orderBy("begun_at"));
  }

  async seeSession(token_sha256: string, seen_at: string): Promise<void> {
    await this.engine.do(build.updateTable("session").set({ seen_at }).where("token_sha256", "=", token_sha256));
  }

  async endSession(token_sha256: string): Promise<void> {
    await this.engine.do(build.deleteFrom("session").where("token_sha256", "=", token_sha256));
  }

  async endSessions(person: string): Promise<void> {
    await this.engine.do(build.deleteFrom("session").where("person", "=", person));
  }

  /** Nobody is signed in any more: a copy put back knows sessions that ended since. */
  async endEverySession(): Promise<void> {
    await this.engine.do(build.deleteFrom("session"));
  }

  /** Lets go of sessions that nobody used since, or that began before. */
  async dropSessions(unseenSince: string, begunBefore: string): Promise<void> {
    await this.engine.do(
      build
        .deleteFrom("session")
        .where((is) => is.or([is("seen_at", "<", unseenSince), is("begun_at", "<", begunBefore)])),
    );
  }
}
