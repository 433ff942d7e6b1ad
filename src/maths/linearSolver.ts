import loadHighs from "highs";

let loading: ReturnType<typeof loadHighs> | undefined;

/** The solver of linear programs, loaded once. */
export function linearSolver(): ReturnType<typeof loadHighs> {
  loading ??= loadHighs();
  return loading;
}

/** A sum for LP text, which breaks at long lines. */
export function terms(all: readonly string[]): string {
  const lines: string[] = [];
  for (let i = 0; i < all.length; i += 8) lines.push(all.slice(i, i + 8).join(" "));
  return lines.join("\n  ");
}
