import { useSyncExternalStore } from "react";
import { isEnough, type Right } from "../../claims/people/right.ts";
import type { SessionView } from "../../workshop/people/views.ts";
import { get, onSignedOut, post, remove } from "../common/api.ts";

/** Whether people sign in here and who has; nothing until the workshop has answered. */
interface Known {
  readonly session?: SessionView;
  /** Somebody was signed in, and the session ended under their hands: the page stays until they are back. */
  readonly isLost: boolean;
}

let known: Known = { isLost: false };
const listeners = new Set<() => void>();

function become(next: Known): void {
  known = next;
  for (const told of listeners) told();
}

function listen(told: () => void): () => void {
  listeners.add(told);
  return () => listeners.delete(told);
}

const nobody: SessionView = { people: false };

/** Asks the workshop who is signed in. One that does not answer is asked by the pages themselves. */
export async function checkSession(): Promise<void> {
  try {
    const session = await get<SessionView>("/api/session");
    const wasIn = known.session?.signedIn !== undefined || known.session?.people === false;
    const isOut = session.people && session.signedIn === undefined;
    if (isOut && wasIn && known.session) become({ session: known.session, isLost: true });
    else become({ session, isLost: known.isLost && isOut });
  } catch {
    if (!known.session) become({ session: nobody, isLost: false });
  }
}

// Whatever was asked first and refused for want of a session tells the rest of the page.
onSignedOut(() => {
  if (!known.isLost && known.session !== undefined) void checkSession();
});

export async function signIn(person: string, passphrase: string): Promise<void> {
  become({ session: await post<SessionView>("/api/session", { person, passphrase }), isLost: false });
}

export async function signOut(everywhere = false): Promise<void> {
  become({ session: await remove<SessionView>(everywhere ? "/api/sessions" : "/api/session"), isLost: false });
}

export async function changePassphrase(present: string, passphrase: string): Promise<void> {
  become({ session: await post<SessionView>("/api/session/passphrase", { present, passphrase }), isLost: false });
}

export const useKnown = (): Known =>
  useSyncExternalStore(
    listen,
    () => known,
    () => known,
  );

/** The session as the workshop last said it; nobody signs in where it has not. */
export const useSession = (): SessionView => useKnown().session ?? nobody;

/** Whether who works here may do what takes `needed`; where nobody signs in, everybody may. */
export function useMay(needed: Right | "safety"): { readonly may: boolean; readonly able: readonly string[] } {
  const { people, signedIn, able } = useSession();
  if (!people) return { may: true, able: [] };
  const isNamed = needed !== "look" && needed !== "nothing";
  return { may: signedIn !== undefined && isEnough(signedIn, needed), able: (isNamed && able?.[needed]) || [] };
}

/** Somebody was entered where nobody signed in before: from now on everybody does. */
export function askForSignIn(): void {
  become({ session: { people: true }, isLost: false });
}

/** For pages of examples and tests, which have no workshop to ask. */
export function pretend(session: SessionView): void {
  become({ session, isLost: false });
}
