import { type ReactNode, useState } from "react";

/** Work folded away until it is wanted. What was open stays open while the page is fetched afresh. */
export function Fold({
  title,
  first = false,
  children,
}: {
  readonly title: string;
  readonly first?: boolean;
  readonly children: ReactNode;
}) {
  const [isOpen, setOpen] = useState(first);
  return (
    <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{title}</summary>
      {children}
    </details>
  );
}
