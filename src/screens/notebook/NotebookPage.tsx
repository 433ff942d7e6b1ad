import { useQuery } from "@tanstack/react-query";
import type { NotebookView, OutlookView } from "../../workshop/notebook/views.ts";
import { get } from "../common/api.ts";
import { Answer, TroubleNote } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import { Notebook } from "./Notebook.tsx";

export default function NotebookPage({ model }: { readonly model: string }) {
  const path = `/api/notebook/${encodeURIComponent(model)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<NotebookView>(path) });
  const outlook = useQuery({
    queryKey: [`${path}/outlook`],
    queryFn: () => get<readonly OutlookView[]>(`${path}/outlook`),
    enabled: asked.data !== undefined,
  });
  return (
    <Answer asked={asked} what={words.modelWhat(model)}>
      {(view) => (
        <>
          <Notebook notebook={view} outlooks={outlook.data} />
          {outlook.error ? <TroubleNote error={outlook.error} again={() => void outlook.refetch()} /> : null}
        </>
      )}
    </Answer>
  );
}
