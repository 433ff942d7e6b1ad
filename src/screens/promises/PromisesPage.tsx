import { useQuery } from "@tanstack/react-query";
import type { PromiseView } from "../../workshop/views.ts";
import { get, type WorkshopHead } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import { PromiseBook } from "./PromiseBook.tsx";

export default function PromisesPage({ workshop }: { readonly workshop: WorkshopHead | undefined }) {
  const asked = useQuery({ queryKey: ["/api/promises"], queryFn: () => get<readonly PromiseView[]>("/api/promises") });
  const isReady = asked.data !== undefined && workshop !== undefined;
  return (
    <Answer asked={{ ...asked, data: isReady ? asked.data : undefined }} what={words.what}>
      {(promises) => <PromiseBook promises={promises} now={workshop?.now ?? ""} />}
    </Answer>
  );
}
