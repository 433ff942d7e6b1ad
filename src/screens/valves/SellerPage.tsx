import { useQuery } from "@tanstack/react-query";
import type { TrayView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { tray as words } from "./messages.ts";
import { SellerSheet } from "./SellerSheet.tsx";

export default function SellerPage({ batch }: { readonly batch: string }) {
  const path = `/api/trays/${encodeURIComponent(batch)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<TrayView>(path) });
  return (
    <Answer asked={asked} what={words.what(batch)}>
      {(tray) => <SellerSheet tray={tray} />}
    </Answer>
  );
}
