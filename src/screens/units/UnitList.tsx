import { useState } from "react";
import { Link } from "wouter";
import type { WorkshopHead } from "../common/api.ts";
import { FirstSteps } from "../common/FirstSteps.tsx";
import { Field } from "../common/fields.tsx";
import { Empty } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import "./units.css";

type Units = WorkshopHead["units"];

/** Every unit in the shop, by serial; the field narrows the list as one types. */
export function UnitList({ units }: { readonly units: Units }) {
  const [typed, setTyped] = useState("");
  const sought = typed.trim().toLowerCase();
  const found = units.filter(({ unit, model }) => `${unit} ${model}`.toLowerCase().includes(sought));
  return (
    <article className="units">
      <h1>{words.title}</h1>
      {units.length === 0 ? (
        <Empty title={words.emptyTitle} steps={<FirstSteps />}>
          {words.empty}
        </Empty>
      ) : (
        <>
          <Field label={words.find} value={typed} onChange={setTyped} narrow />
          <p className="quiet units-count" role="status">
            {found.length === 0 ? words.none(typed.trim()) : words.found(found.length, units.length)}
          </p>
          <ul className="unit-list">
            {found.map(({ unit, model, state }) => (
              <li key={unit}>
                <Link href={`/unit/${encodeURIComponent(unit)}`}>
                  <span className="figure unit-serial">{unit}</span>
                  <span className="unit-model">{model}</span>
                  <span>{state}</span>
                </Link>
              </li>
            ))}
          </ul>
        </>
      )}
    </article>
  );
}
