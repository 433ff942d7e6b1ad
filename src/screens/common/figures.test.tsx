import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { CauseBar } from "../hum/CauseBar.tsx";
import { decided, spectrumOf } from "../hum/examples.ts";
import { levelsOf, Spectrum } from "../hum/Spectrum.tsx";
import { few, now } from "../promises/examples.ts";
import { Ribbon } from "../promises/Ribbon.tsx";
import { DayRule } from "./DayRule.tsx";
import { rulerRange, WindowRuler } from "./WindowRuler.tsx";

const drawn = (figure: React.ReactElement) => renderToStaticMarkup(figure);

test("every figure can be drawn without a browser, and says in words what it shows", () => {
  const spectrum = spectrumOf(decided, "r2", "left");
  const pictures = {
    ruler: drawn(<WindowRuler value={0.12} doubt={0.09} low={-0.5} high={0.5} unit="dB" computed />),
    days: drawn(
      <DayRule marks={[{ at: "2026-11-27T16:00:00Z", words: "promised", short: "promised", kind: "promised" }]} />,
    ),
    bar: drawn(<CauseBar causes={decided.lines[0]!.causes} width={500} label="valve 61" />),
    spectrum: drawn(
      <Spectrum spectrum={spectrum} lines={decided.lines} width={900} levels_dBV={levelsOf([spectrum])} />,
    ),
    ribbon: drawn(<Ribbon promise={few[0]!} now={now} last_days={60} width={600} />),
  };
  for (const picture of Object.values(pictures)) {
    expect(picture).toMatch(/^<svg[^>]* role="img" aria-label="[^"]+"/);
    expect(picture).not.toMatch(/NaN|Infinity|undefined/);
  }
  expect(pictures.ruler).toContain("0.12 ± 0.09 dB; not under −0.5, not over 0.5 dB");
  expect(pictures.spectrum).toContain("57 Hz");
  expect(pictures.ribbon).toContain("Promised Fri");
});

test("a ruler shows its limits and the whole doubt, and is never without length", () => {
  const [from, to] = rulerRange({ value: 9, doubt: 1, low: 0, high: 5 });
  expect(from).toBeLessThanOrEqual(0);
  expect(to).toBeGreaterThan(10);
  for (const odd of [{}, { value: 0 }, { value: 3, doubt: 0 }, { high: 0 }, { low: 2 }]) {
    const [a, b] = rulerRange(odd);
    expect(b).toBeGreaterThan(a);
    expect(drawn(<WindowRuler {...odd} unit="V" />)).not.toMatch(/NaN|Infinity/);
  }
});

test("an order that is certain to the minute, or overdue, still has a ribbon", () => {
  for (const at of ["2026-11-27T16:00:00Z", "2026-11-20T16:00:00Z"]) {
    const certain = { ...few[0]!, p50: at, p80: at, p95: at, promised: at };
    expect(drawn(<Ribbon promise={certain} now={now} last_days={7} width={300} />)).not.toMatch(/NaN|Infinity/);
  }
});
