import type { ReactNode } from "react";
import { common } from "./messages.ts";

export function CautionMark() {
  return (
    <svg className="caution-mark" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d="M12 2.800L22.200 21H1.800z" fill="none" />
      <path d="M12 9.300v5.600M12 17.400v.6" />
    </svg>
  );
}

/** A warning in ink beside the step it belongs to; red is kept for stop. */
function Caution({ children }: { readonly children: ReactNode }) {
  return (
    <p className="caution">
      <CautionMark />
      <span>{children}</span>
    </p>
  );
}

/** The danger of a check, in words, where there is one. */
export function DangerOf({ danger, short = false }: { readonly danger: string; readonly short?: boolean }) {
  if (danger === "none" || danger === "") return null;
  if (!short) return <Caution>{common.dangers[danger] ?? danger}</Caution>;
  return (
    <span className="danger-short">
      <CautionMark />
      {common.dangerShort[danger] ?? danger}
    </span>
  );
}
