import { useQuery } from "@tanstack/react-query";
import type { ProbeCardView, ProbeSuspectsView, ProbeWindowsView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { Answer, TroubleNote } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import { ProbeCard } from "./ProbeCard.tsx";

/** The card is there at once; windows and suspects come in blue when they are worked out. */
export default function ProbePage({ unit }: { readonly unit: string }) {
  const path = `/api/units/${encodeURIComponent(unit)}/probe`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<ProbeCardView>(path) });
  const windows = useQuery({
    queryKey: [`${path}/windows`],
    queryFn: () => get<ProbeWindowsView>(`${path}/windows`),
    enabled: asked.data !== undefined,
  });
  const suspects = useQuery({
    queryKey: [`${path}/suspects`],
    queryFn: () => get<ProbeSuspectsView>(`${path}/suspects`),
    enabled: asked.data !== undefined,
  });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(card) => (
        <>
          {(windows.error ?? suspects.error) !== null && <TroubleNote error={windows.error ?? suspects.error} />}
          <ProbeCard card={card} windows={windows.data} suspects={suspects.data} />
        </>
      )}
    </Answer>
  );
}
