import { useEffect, useState } from "react";
import type { DraftView } from "../../workshop/notebook/views.ts";
import { post } from "../common/api.ts";

const pause_ms = 400;

/** What the workshop reads of a text, asked when the typing pauses; the last answer stands until the next. */
export function useReading(text: string): { readonly reading: DraftView | undefined; readonly isReading: boolean } {
  const [reading, setReading] = useState<{ readonly of: string; readonly view: DraftView }>();
  useEffect(() => {
    if (text.trim() === "") return;
    let isOver = false;
    const wait = setTimeout(() => {
      post<DraftView>("/api/notebook-draft", { text })
        .then((view) => {
          if (!isOver) setReading({ of: text, view });
        })
        .catch(() => undefined);
    }, pause_ms);
    return () => {
      isOver = true;
      clearTimeout(wait);
    };
  }, [text]);
  if (text.trim() === "") return { reading: undefined, isReading: false };
  return { reading: reading?.view, isReading: reading?.of !== text };
}
