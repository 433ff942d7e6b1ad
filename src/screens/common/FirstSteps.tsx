import { Link } from "wouter";
import { firstSteps } from "./messages.ts";

/** Where each of the first steps is taken. */
const places = ["/shop", "/shop#instruments", "/notebook", "/orders"] as const;

/** What a workshop writes down first, in the order in which each entry needs the one before. */
export function FirstSteps() {
  return (
    <section className="first-steps" aria-labelledby="first-steps-name">
      <h2 id="first-steps-name">{firstSteps.title}</h2>
      <ol className="numbered">
        {firstSteps.steps.map((step, i) => (
          <li key={step}>
            <Link href={places[i] ?? "/shop"}>{step}</Link>
          </li>
        ))}
      </ol>
      <p>
        {firstSteps.how} <code>{firstSteps.command}</code>
      </p>
      <p className="quiet">{firstSteps.mend}</p>
    </section>
  );
}
