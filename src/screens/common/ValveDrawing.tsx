import { common } from "./messages.ts";

/** A valve standing on its base; its sections are the strokes inside. `out` is drawn as what leaves: an outline. */
export function ValveDrawing({
  name,
  sections = 2,
  out = false,
}: {
  readonly name: string;
  readonly sections?: number;
  readonly out?: boolean;
}) {
  const spread = 15;
  return (
    <svg
      className={`valve-drawing${out ? " valve-out" : ""}`}
      viewBox="0 0 84 136"
      width={84}
      height={136}
      role="img"
      aria-label={out ? common.takenOut(name) : common.putIn(name)}
    >
      <path className="valve-glass" d="M24 92V38C24 18 32 14 40 12l2-7 2 7c8 2 16 6 16 26v54z" />
      {Array.from({ length: sections }, (_, i) => 42 + (i - (sections - 1) / 2) * spread).map((x) => (
        <path key={x} className="valve-section" d={`M${x} 40v40`} />
      ))}
      <path className="valve-mica" d="M29 34h26M29 85h26" />
      <path className="valve-base" d="M20 92h44v20H20z" />
      <path className="valve-pins" d="M27 112v12M35 112v12M49 112v12M57 112v12M42 112v16" />
      {out && <path className="valve-strike" d="M8 128L76 8" />}
    </svg>
  );
}
