import { type ReactNode, useLayoutEffect, useRef, useState } from "react";

/** Gives a drawing the width of its place, so that its lettering keeps one size on a phone and on a bench screen. */
export function Measured({
  children,
  first = 720,
}: {
  readonly children: (width: number) => ReactNode;
  readonly first?: number;
}) {
  const place = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(first);
  // Before it is painted, so that nothing below it is seen to jump.
  useLayoutEffect(() => {
    const here = place.current;
    if (!here) return;
    const look = () => setWidth(Math.max(240, Math.floor(here.clientWidth)));
    look();
    const watch = new ResizeObserver(look);
    watch.observe(here);
    return () => watch.disconnect();
  }, []);
  return (
    <div ref={place} className="measured">
      {children(width)}
    </div>
  );
}
