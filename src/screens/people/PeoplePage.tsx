import { useQuery } from "@tanstack/react-query";
import type { PeopleView, SessionView } from "../../workshop/people/views.ts";
import { get } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { Enter } from "./Enter.tsx";
import { words } from "./messages.ts";
import { Own } from "./Own.tsx";
import { PersonLine } from "./PersonLine.tsx";
import "./people.css";
import { NotYours } from "./NotYours.tsx";
import { useSession } from "./session.ts";

/** Oneself, and for the owner everybody. */
export default function PeoplePage() {
  const session = useSession();
  return <People session={session}>{session.signedIn?.may === "owner" ? <Everybody /> : null}</People>;
}

function Everybody() {
  const asked = useQuery({ queryKey: ["/api/people"], queryFn: () => get<PeopleView>("/api/people") });
  return (
    <Answer asked={asked} what={words.what}>
      {({ people }) => <Register people={people} />}
    </Answer>
  );
}

interface Props {
  readonly session: SessionView;
  readonly children: React.ReactNode;
}

export function People({ session, children }: Props) {
  const { people, signedIn } = session;
  if (!people) {
    return (
      <article className="people">
        <h1>{words.noneTitle}</h1>
        <p className="lead">{words.none}</p>
        <section className="people-enter" aria-labelledby="first-name">
          <h2 id="first-name">{words.firstTitle}</h2>
          <Enter isFirst />
        </section>
      </article>
    );
  }
  return (
    <article className="people">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      {signedIn && <Own signedIn={signedIn} />}
      {children ?? <NotYours need="owner" />}
    </article>
  );
}

/** Everybody by id, those who left last; and the way in for one more. */
export function Register({ people }: PeopleView) {
  const { signedIn } = useSession();
  const order = people.toSorted((a, b) => Number(a.may === "nothing") - Number(b.may === "nothing"));
  return (
    <>
      <section className="people-register" aria-label={words.title}>
        <ul>
          {order.map((one) => (
            <PersonLine key={one.person} one={one} isOneself={one.person === signedIn?.person} />
          ))}
        </ul>
      </section>
      <section className="people-enter" aria-labelledby="enter-name">
        <h2 id="enter-name">{words.addTitle}</h2>
        <Enter />
      </section>
    </>
  );
}
