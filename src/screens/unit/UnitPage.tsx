import { useQuery } from "@tanstack/react-query";
import type { UnitView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import { UnitFolder } from "./UnitFolder.tsx";

export default function UnitPage({ unit }: { readonly unit: string }) {
  const path = `/api/units/${encodeURIComponent(unit)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<UnitView>(path) });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(view) => <UnitFolder unit={view} key={view.unit} />}
    </Answer>
  );
}
