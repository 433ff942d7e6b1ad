import { createHash, randomBytes } from "node:crypto";
import type { People } from "../../store/people.ts";

const hour_ms = 3_600_000;
/** A session that nobody used for a working day ends, and any after a week. */
export const idle_ms = 8 * hour_ms;
export const longest_ms = 7 * 24 * hour_ms;
/** How often it is written down that somebody is still there. */
const noted_ms = 60_000;

const iso = (at_ms: number) => new Date(at_ms).toISOString();
export const hashOf = (token: string) => createHash("sha256").update(token).digest("hex");

/** Who is signed in where. The token lies in the browser alone; here only its hash is kept. */
export class Sessions {
  private readonly ended = new Set<(token_sha256: string | undefined, person?: string) => void>();

  constructor(
    private readonly kept: People,
    private readonly now_ms: () => number,
  ) {}

  /** @returns the token: 256 random bits, told once */
  async begin(person: string): Promise<string> {
    const now = this.now_ms();
    await this.kept.dropSessions(iso(now - idle_ms), iso(now - longest_ms));
    const token = randomBytes(32).toString("base64url");
    await this.kept.beginSession({ token_sha256: hashOf(token), person, begun_at: iso(now), seen_at: iso(now) });
    return token;
  }

  /**
   * The person whom a session is of, if it still holds.
   *
   * @param isUse  false to look only: a page left open is nobody at work
   */
  async personOf(token_sha256: string, isUse = true): Promise<string | undefined> {
    const session = await this.kept.session(token_sha256);
    if (!session) return undefined;
    const now = this.now_ms();
    const seen = Date.parse(session.seen_at);
    if (now - seen > idle_ms || now - Date.parse(session.begun_at) > longest_ms) {
      await this.end(token_sha256);
      return undefined;
    }
    if (isUse && now - seen > noted_ms) await this.kept.seeSession(token_sha256, iso(now));
    return session.person;
  }

  async end(token_sha256: string): Promise<void> {
    await this.kept.endSession(token_sha256);
    for (const told of this.ended) told(token_sha256);
  }

  async endAll(person: string): Promise<void> {
    await this.kept.endSessions(person);
    for (const told of this.ended) told(undefined, person);
  }

  /** Called when a session ends, or all of a person's. @returns stops it */
  onEnd(told: (token_sha256: string | undefined, person?: string) => void): () => void {
    this.ended.add(told);
    return () => this.ended.delete(told);
  }
}
