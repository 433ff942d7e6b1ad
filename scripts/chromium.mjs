// Finds the browser that tests and pictures use. Plain Node, no libraries.
import { existsSync } from "node:fs";

/** The same engine without windows and bars around it, at a fraction of the time: Debian's package of that name. */
export const shell = "/usr/bin/chromium-headless-shell";

const whole = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

/** @returns the browser named in STILLGLOW_CHROMIUM or CHROMIUM, else one of this machine's, the lightest first */
export function findChromium() {
  const places = [process.env.STILLGLOW_CHROMIUM, process.env.CHROMIUM, shell, ...whole];
  return places.find((place) => place && existsSync(place));
}
