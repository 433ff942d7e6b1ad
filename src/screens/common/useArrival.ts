import { useEffect } from "react";
import { decode } from "./decode.ts";

/** Goes to the place that the address names, once the page that holds it has come; what is folded there opens. */
export function useArrival(): void {
  useEffect(() => {
    const arrive = () => {
      const place = document.getElementById(decode(location.hash.slice(1)));
      if (!place) return;
      const folded = place.querySelector(":scope > details");
      if (folded instanceof HTMLDetailsElement) folded.open = true;
      place.scrollIntoView();
    };
    if (location.hash !== "") arrive();
    window.addEventListener("hashchange", arrive);
    return () => window.removeEventListener("hashchange", arrive);
  }, []);
}
