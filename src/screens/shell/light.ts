/** The two inks the screens are drawn with: on paper by day, and pale on dark paper where the room must stay dim. */
export const lights = ["day", "lamp"] as const;
export type Light = (typeof lights)[number];

/** The light the page is drawn in, which `firstLight.js` chose before the first paint. */
export const lightNow = (): Light => (document.documentElement.dataset.light === "lamp" ? "lamp" : "day");

export function chooseLight(light: Light): void {
  document.documentElement.dataset.light = light;
  try {
    localStorage.setItem("stillglow.light", light);
  } catch {
    // A browser that keeps nothing: then it holds until the page is left.
  }
}
