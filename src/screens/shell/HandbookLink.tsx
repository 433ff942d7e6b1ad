import { useEffect, useRef } from "react";
import { useLocation } from "wouter";
import { handbookAt } from "./handbook.ts";
import { shell } from "./messages.ts";

/** The way to what the handbook says about the screen at hand; F1 leads there too. */
export function HandbookLink() {
  const [location] = useLocation();
  const link = useRef<HTMLAnchorElement>(null);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== "F1" || event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      link.current?.click();
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, []);
  return (
    <a ref={link} className="handbook-link" href={handbookAt(location)} aria-keyshortcuts="F1">
      {shell.handbook} <kbd>F1</kbd>
    </a>
  );
}
