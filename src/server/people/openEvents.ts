import type { PeopleDesk } from "../../workshop/people/desk.ts";
import type { Acting } from "./acting.ts";

/** Streams of news that are open, so that each ends with the session it was opened in. */
export class OpenEvents {
  private readonly open = new Map<() => void, { readonly token_sha256: string; readonly person: string }>();
  private readonly stopListening: () => void;

  constructor(private readonly people: PeopleDesk) {
    this.stopListening = people.sessions.onEnd((token_sha256, person) => {
      for (const [close, of] of this.open) {
        if (of.token_sha256 === token_sha256 || of.person === person) close();
      }
    });
  }

  /** @returns to be called when the stream has ended */
  opened(acting: Acting, close: () => void): () => void {
    if (acting.kind !== "person") return () => undefined;
    this.open.set(close, { token_sha256: acting.token_sha256, person: acting.signedIn.person });
    return () => this.open.delete(close);
  }

  /** Whether a stream may go on: its session may have run out, or ended at another server, or people came in since. */
  async holds(acting: Acting): Promise<boolean> {
    if (acting.kind === "anybody") return !this.people.arePresent;
    if (acting.kind !== "person") return acting.kind === "local";
    return (await this.people.sessions.personOf(acting.token_sha256, false)) !== undefined;
  }

  stop(): void {
    this.stopListening();
    this.open.clear();
  }
}
