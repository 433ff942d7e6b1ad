import { useQuery } from "@tanstack/react-query";
import type { BenchSheetView } from "../../workshop/bench/views.ts";
import type { UnitView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { BenchSheet } from "./BenchSheet.tsx";
import { words } from "./messages.ts";

interface Conditions {
  readonly building_Hz: number;
  readonly fitted: UnitView["fitted"] extends Readonly<Record<string, unknown>>
    ? Readonly<Record<string, string>>
    : never;
}

export function BenchPage({ unit }: { readonly unit: string }) {
  const at = `/api/units/${encodeURIComponent(unit)}`;
  const asked = useQuery({ queryKey: [`${at}/bench`], queryFn: () => get<BenchSheetView>(`${at}/bench`) });
  const surroundings = useQuery({
    queryKey: [`${at}/conditions`],
    queryFn: () => get<Conditions>(`${at}/conditions`),
  });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(sheet) => <BenchSheet sheet={sheet} conditions={surroundings.data} />}
    </Answer>
  );
}
