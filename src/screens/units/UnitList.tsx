import { keepPreviousData, useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import { get, type WorkshopHead } from "../common/api.ts";
import { FirstSteps } from "../common/FirstSteps.tsx";
import { Field } from "../common/fields.tsx";
import { Empty } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import "./units.css";

type Units = WorkshopHead["units"];

interface Found {
  readonly units: Units;
  readonly inAll: number;
}

/** Units in hand and the newest that left; the field finds any other as one types. */
export function UnitList({ units, inAll = units.length }: { readonly units: Units; readonly inAll?: number }) {
  const [typed, setTyped] = useState("");
  const sought = typed.trim().toLowerCase();
  const here = units.filter(({ unit, model }) => `${unit} ${model}`.toLowerCase().includes(sought));
  const asked = useQuery({
    queryKey: ["/api/units", sought],
    queryFn: () => get<Found>(`/api/units?find=${encodeURIComponent(sought)}`),
    enabled: sought !== "" && units.length < inAll,
    placeholderData: keepPreviousData,
  });
  const found = (sought !== "" && asked.data?.units) || here;
  return (
    <article className="units">
      <h1>{words.title}</h1>
      <p>
        <Link href="/orders">{words.orders}</Link>
      </p>
      {units.length === 0 ? (
        <Empty title={words.emptyTitle} steps={<FirstSteps />}>
          {words.empty}
        </Empty>
      ) : (
        <>
          <Field label={words.find} value={typed} onChange={setTyped} narrow />
          <p className="quiet units-count" role="status">
            {found.length === 0 ? words.none(typed.trim()) : words.found(found.length, inAll)}
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
