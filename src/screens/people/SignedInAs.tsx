import { useQueryClient } from "@tanstack/react-query";
import { Link } from "wouter";
import { words } from "./messages.ts";
import "./people.css";
import { signOut, useMay, useSession } from "./session.ts";

/** At the foot: who is signed in, and the ways that lead on from there. */
export function SignedInAs() {
  const { people, signedIn } = useSession();
  const client = useQueryClient();
  const { may: mayRelease } = useMay("release");
  const leave = async () => {
    await signOut();
    client.clear();
  };
  return (
    <div className="signed-in-as">
      {signedIn && <p>{words.as(signedIn.name)}</p>}
      <Link href="/people">{people ? words.yours : words.letIn}</Link>
      {mayRelease && <Link href="/customers">{words.customers}</Link>}
      {signedIn && (
        <button type="button" onClick={() => void leave()}>
          {words.signOut}
        </button>
      )}
    </div>
  );
}
