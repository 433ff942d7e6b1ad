/** The two inks the screens are drawn with: on paper by day, and pale on dark paper where the room must stay dim. */
export const lights = ["day", "lamp"] as const;
export type Light = (typeof lights)[number];

const key = "stillglow.light";
const isLight = (word: string | null): word is Light => lights.some((light) => light === word);

/** The light chosen on this machine, else the one it wishes for. */
export function lightWanted(): Light {
  let kept: string | null = null;
  try {
    kept = localStorage.getItem(key);
  } catch {
    // A browser that keeps nothing shows what the machine wishes for.
  }
  if (isLight(kept)) return kept;
  return window.matchMedia("(prefers-color-scheme: dark)").matches ? "lamp" : "day";
}

export function drawIn(light: Light): void {
  document.documentElement.dataset.light = light;
}

export function chooseLight(light: Light): void {
  drawIn(light);
  try {
    localStorage.setItem(key, light);
  } catch {
    // As above: then it holds until the page is left.
  }
}
