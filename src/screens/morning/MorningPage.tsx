import { useQuery } from "@tanstack/react-query";
import type { MorningView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { MorningCard } from "./MorningCard.tsx";
import { words } from "./messages.ts";

export function MorningPage() {
  const asked = useQuery({ queryKey: ["/api/morning"], queryFn: () => get<MorningView>("/api/morning") });
  return (
    <Answer asked={asked} what={words.what}>
      {(morning) => <MorningCard morning={morning} />}
    </Answer>
  );
}
