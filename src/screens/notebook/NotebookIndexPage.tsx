import { useQuery } from "@tanstack/react-query";
import type { NotebookIndexView } from "../../workshop/notebook/views.ts";
import { get } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import { NotebookIndex } from "./NotebookIndex.tsx";

export default function NotebookIndexPage() {
  const asked = useQuery({ queryKey: ["/api/notebook"], queryFn: () => get<NotebookIndexView>("/api/notebook") });
  return (
    <Answer asked={asked} what={words.what}>
      {(index) => <NotebookIndex index={index} />}
    </Answer>
  );
}
