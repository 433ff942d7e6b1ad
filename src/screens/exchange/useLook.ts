import { useEffect, useState } from "react";
import { type Looked, lookAt, type Question } from "./ask.ts";

/** So that a word being typed is asked about once. */
const patience_ms = 250;

/** What a file would bring, asked anew with every change of the question; the last answer stays until the next is there. */
export function useLook(file: File | undefined, question: Question) {
  const [looked, setLooked] = useState<Looked>();
  const [trouble, setTrouble] = useState<string>();
  const [isLooking, setLooking] = useState(false);
  const asked = JSON.stringify(question);
  useEffect(() => {
    if (!file) {
      setLooked(undefined);
      setTrouble(undefined);
      return;
    }
    const leaving = new AbortController();
    setLooking(true);
    const later = setTimeout(() => {
      lookAt(file, JSON.parse(asked) as Question, leaving.signal).then(
        (answer) => {
          setLooked(answer);
          setTrouble(undefined);
          setLooking(false);
        },
        (fault: unknown) => {
          if (leaving.signal.aborted) return;
          setLooked(undefined);
          setTrouble(fault instanceof Error ? fault.message : String(fault));
          setLooking(false);
        },
      );
    }, patience_ms);
    return () => {
      clearTimeout(later);
      leaving.abort();
    };
  }, [file, asked]);
  return { looked, trouble, isLooking };
}
