import { useQuery } from "@tanstack/react-query";
import type { TimberShelfView } from "../../workshop/timber/views.ts";
import { get } from "../common/api.ts";

/** The shelf; asked again every little while for as long as pieces are being computed. */
export function useShelf() {
  return useQuery({
    queryKey: ["/api/timber"],
    queryFn: () => get<TimberShelfView>("/api/timber"),
    refetchInterval: ({ state }) => (state.data && state.data.computing > 0 ? 1500 : false),
  });
}
