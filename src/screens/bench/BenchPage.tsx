import { useQuery } from "@tanstack/react-query";
import type { BenchSheetView } from "../../workshop/bench/views.ts";
import { get } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { BenchSheet } from "./BenchSheet.tsx";
import type { Surroundings } from "./conditions.ts";
import { words } from "./messages.ts";

export default function BenchPage({ unit }: { readonly unit: string }) {
  const at = `/api/units/${encodeURIComponent(unit)}`;
  const asked = useQuery({ queryKey: [`${at}/bench`], queryFn: () => get<BenchSheetView>(`${at}/bench`) });
  const surroundings = useQuery({
    queryKey: [`${at}/conditions`],
    queryFn: () => get<Surroundings>(`${at}/conditions`),
  });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(sheet) => <BenchSheet sheet={sheet} conditions={surroundings.data} />}
    </Answer>
  );
}
