import { useQueryClient } from "@tanstack/react-query";
import { Link } from "wouter";
import { door } from "./doorMessages.ts";
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
      {signedIn && <p>{door.as(signedIn.name)}</p>}
      <Link href="/people">{people ? door.yours : door.letIn}</Link>
      {mayRelease && <Link href="/customers">{door.customers}</Link>}
      {signedIn && (
        <button type="button" onClick={() => void leave()}>
          {door.signOut}
        </button>
      )}
    </div>
  );
}
