import { useQuery, useQueryClient } from "@tanstack/react-query";
import { useEffect } from "react";
import type { LinksView } from "../../workshop/instruments/linkViews.ts";
import { get, Trouble } from "../common/api.ts";
import { toldAnswer } from "../languages/sentences/told.ts";
import { problems } from "./linkMessages.ts";

const path = "/api/instruments/links";

/** Instruments on the wire, as they stand. */
export const useLinks = () => useQuery({ queryKey: [path], queryFn: () => get<LinksView>(path) });

/** The same, kept as it changes for as long as the page is open. */
export function useLiveLinks() {
  const client = useQueryClient();
  useEffect(() => {
    const news = new EventSource("/api/instruments/live");
    news.onmessage = ({ data }) =>
      void toldAnswer(path, JSON.parse(data) as LinksView).then((view) => client.setQueryData([path], view));
    return () => news.close();
  }, [client]);
  return useLinks();
}

/** What was the matter with an instrument, in the language in use, with its own words behind. */
export function faultWords(fault: unknown): string {
  const message = fault instanceof Error ? fault.message : String(fault);
  const problem = fault instanceof Trouble ? /^problem\.(.+)$/.exec(fault.path)?.[1] : undefined;
  const known = problem === undefined ? undefined : problems[problem];
  return known === undefined ? message : `${known}. ${message}`;
}

/** An id under which something is asked once, however often it is sent. */
export const freshId = (kind: string): string => {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return `${kind}-${[...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;
};
