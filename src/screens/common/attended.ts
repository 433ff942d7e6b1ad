/** So long after the last touch or key somebody is held to be at the page. */
const attended_ms = 10 * 60_000;
let last_ms = Date.now();

if (typeof window !== "undefined") {
  for (const kind of ["pointerdown", "keydown", "touchstart", "wheel"]) {
    window.addEventListener(
      kind,
      () => {
        last_ms = Date.now();
      },
      { capture: true, passive: true },
    );
  }
}

/** Said with what a page fetches by itself while nobody is there, so that it alone keeps nobody signed in. */
export const unattended = (): Readonly<Record<string, string>> =>
  Date.now() - last_ms > attended_ms ? { "x-unattended": "yes" } : {};
