import { useQuery } from "@tanstack/react-query";
import type { Soon } from "../../workshop/timber/soon.ts";
import { get } from "../common/api.ts";

/** An answer that may take long: asked for again every little while until it is ready. */
export function useSoon<T>(path: string) {
  return useQuery({
    queryKey: [path],
    queryFn: () => get<Soon<T>>(path),
    refetchInterval: ({ state }) => (state.data && state.data.ready === undefined ? 700 : false),
  });
}
