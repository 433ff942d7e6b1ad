import type { HumHearingView, HumLineView, SpectrumView } from "../../workshop/views.ts";

/** Invented hearings for the preview page and the browser tests. */

const headphones = [
  { headphone: "Skerry", impedance_ohm: 32, sensitivity_dB_per_V: 119 },
  { headphone: "Holm", impedance_ohm: 55, sensitivity_dB_per_V: 114 },
  { headphone: "Voe", impedance_ohm: 150, sensitivity_dB_per_V: 107 },
  { headphone: "Geo", impedance_ohm: 300, sensitivity_dB_per_V: 103 },
  { headphone: "Noust", impedance_ohm: 600, sensitivity_dB_per_V: 97 },
];

type Causes = HumLineView["causes"];

function line(
  channel: string,
  recording: string,
  of: "supply" | "building",
  order: number,
  frequency_Hz: number,
  level_uV: number,
  top_dB: number,
  causes: Causes,
): HumLineView {
  return {
    channel,
    recording,
    frequency_Hz,
    order,
    of,
    level_Vrms: level_uV * 1e-6,
    doubt_Vrms: level_uV * 0.03e-6,
    causes,
    origin: originOf(causes),
    heardOn: headphones.map(({ headphone }, i) => {
      const margin_dB = top_dB - i * 5.5;
      return { headphone, margin_dB, audible: margin_dB > 10 ? "yes" : margin_dB < -10 ? "no" : "doubtful" };
    }),
  };
}

/** As the real hearing names it: one cause that surely has nearly all. */
function originOf(causes: Causes): NonNullable<HumLineView["origin"]> {
  const nameOf = ({ cause, position, valve }: Causes[number]) => ({
    cause,
    ...(position !== undefined && { position }),
    ...(valve !== undefined && { valve }),
  });
  const one = causes.find(({ low }) => low >= 0.85);
  return one ? { state: "one cause", causes: [nameOf(one)] } : { state: "not told apart" };
}

const v2 = (share: number, low: number, high: number): Causes[number] => ({
  cause: "valve",
  position: "V2",
  valve: "T-117",
  share,
  low,
  high,
});
const amplifier = (share: number, low: number, high: number): Causes[number] => ({
  cause: "amplifier",
  share,
  low,
  high,
});
const field = (share: number, low: number, high: number): Causes[number] => ({ cause: "pick-up", share, low, high });
const house = (share: number, low: number, high: number): Causes[number] => ({ cause: "mains", share, low, high });

const lines: readonly HumLineView[] = [
  line("left", "r1", "building", 1, 50.02, 168, 19, [
    v2(0.61, 0.52, 0.7),
    field(0.31, 0.22, 0.4),
    amplifier(0.08, 0, 0.16),
  ]),
  line("left", "r1", "building", 2, 100.04, 21, -13, [amplifier(0.86, 0.74, 0.98), v2(0.14, 0.02, 0.26)]),
  line("left", "r1", "building", 3, 150.06, 14, 4, [field(0.72, 0.6, 0.83), house(0.2, 0.08, 0.31), v2(0.08, 0, 0.2)]),
  line("left", "r1", "building", 5, 250.1, 5.2, -12, [field(0.64, 0.4, 0.88), house(0.36, 0.12, 0.6)]),
  line("left", "r1", "building", 7, 350.14, 2.8, -14, [house(0.71, 0.4, 1), field(0.29, 0, 0.6)]),
  line("left", "r2", "building", 1, 50.02, 92, 3, [field(1, 0.94, 1)]),
  line("left", "r2", "supply", 1, 57, 131, 16, [v2(0.93, 0.85, 1), amplifier(0.07, 0, 0.15)]),
  line("left", "r2", "supply", 2, 114, 19, -14, [amplifier(0.88, 0.77, 0.99), v2(0.12, 0.01, 0.23)]),
  line("left", "r2", "building", 3, 150.06, 12, 2, [field(1, 0.9, 1)]),
  line("left", "r3", "building", 1, 50.02, 90, 3, [field(1, 0.94, 1)]),
  line("left", "r3", "supply", 1, 57, 9.4, -16, [amplifier(1, 0.8, 1)]),
  line("left", "r3", "supply", 2, 114, 19, -14, [amplifier(1, 0.9, 1)]),
  line("right", "r1", "building", 1, 50.02, 36, -11, [field(0.8, 0.64, 0.96), amplifier(0.2, 0.04, 0.36)]),
  line("right", "r2", "building", 1, 50.02, 32, -12, [field(1, 0.9, 1)]),
  line("right", "r2", "supply", 2, 114, 17, -15, [amplifier(1, 0.86, 1)]),
];

const recordings: HumHearingView["recordings"] = [
  {
    recording: "r1",
    at: "2026-11-24T15:20:00+00:00",
    source: "building",
    frequency_Hz: 50,
    valves: { V1: "T-001", V2: "T-117" },
    input: "shorted",
    duration_s: 8.1,
    truncated: false,
  },
  {
    recording: "r2",
    at: "2026-11-24T15:48:00+00:00",
    source: "regenerated",
    frequency_Hz: 57,
    valves: { V1: "T-001", V2: "T-117" },
    input: "shorted",
    duration_s: 8,
    truncated: false,
  },
  {
    recording: "r3",
    at: "2026-11-24T16:02:00+00:00",
    source: "regenerated",
    frequency_Hz: 57,
    valves: { V1: "T-001", V2: "T-118" },
    input: "shorted",
    duration_s: 5.4,
    truncated: true,
  },
];

export const decided: HumHearingView = {
  unit: "0231",
  building_Hz: 50,
  recordings,
  lines,
  verdict: {
    left: { state: "decided", cause: "valve", position: "V2", valve: "T-117", odds: 0.97 },
    right: { state: "quiet" },
  },
  supplies: [
    {
      recording: "r2",
      instrument: "regenerator",
      state: "not believed",
      against: [
        "its peaks are cut: crest factor 1.343, not under 1.380: outside",
        "HT stood 6.1 % lower than on the building's mains",
      ],
      trial: "failed",
      shape: { crestFactor: 1.343, doubt: 0.002, thd_pct: 3.6 },
      ht: { building_V: 372.9, here_V: 350.3, change_pct: -6.06, doubt_pct: 0.27 },
    },
    {
      recording: "r3",
      instrument: "regenerator",
      state: "believed",
      against: [],
      trial: "good",
      shape: { crestFactor: 1.412, doubt: 0.002, thd_pct: 0.07 },
    },
  ],
  microphony: {
    state: "rings",
    position: "V1",
    valve: "T-001",
    frequency_Hz: 612,
    q: 85,
    decay_ms: 44,
    peak_Vpk: 0.0046,
    words:
      "Valve T-001 in V1 is microphonic: tapped, it rings at 612 Hz for 44 ms; with another valve in its place nothing does. No hum recording shows it.",
    recordings: [
      {
        recording: "t1",
        valves: { V1: "T-001", V2: "T-117" },
        taps: 6,
        rings: [{ frequency_Hz: 612, q: 85, decay_ms: 44, peak_Vpk: 0.0046 }],
      },
      { recording: "t2", valves: { V1: "T-009", V2: "T-117" }, taps: 6, rings: [] },
    ],
  },
  nextRecording: null,
  headphones,
  sentences: [
    "The hum in the left channel is valve T-117 in V2: leakage from heater to cathode in its second section. It is heard on two of the five headphones.",
    "50 Hz and its odd multiples are picked up from this building’s field. What another house brings can’t be told from here.",
    "114 Hz is ripple of the amplifier’s own supply and lies below hearing on every headphone.",
  ],
  notes: ["A flat headphone response is assumed.", "Between recordings the supply was restarted, so phases differ."],
};

export const cannotTell: HumHearingView = {
  ...decided,
  supplies: [],
  microphony: undefined,
  unit: "0409",
  recordings: recordings.slice(0, 1),
  lines: lines
    .filter(({ recording, channel }) => recording === "r1" && channel === "left")
    .map((one) => ({ ...one, causes: [amplifier(0.5, 0, 1), field(0.5, 0, 1)], origin: { state: "not told apart" } })),
  verdict: {
    left: {
      state: "undecided",
      reason: "one recording on the building’s mains tells nothing apart",
      candidates: ["mains", "pick-up", "amplifier", "valve"],
    },
  },
  nextRecording: {
    why: "On an offset supply the unit’s own hum moves away from the building’s, and what stays is picked up.",
    supply: { source: "regenerated", frequency_Hz: 57 },
    valves: { V1: "T-001", V2: "T-118" },
  },
  sentences: ["The left channel hums audibly, and one recording can’t tell what makes it."],
  notes: [],
};

/** Two valves exchanged at once: no reading of them tells the two apart. */
export const notSeparable: HumHearingView = {
  ...decided,
  supplies: [],
  microphony: undefined,
  unit: "0412",
  recordings: recordings
    .slice(0, 2)
    .map((one, i) => (i === 0 ? one : { ...one, valves: { V1: "T-009", V2: "T-118" } })),
  lines: lines
    .filter(({ recording, channel }) => recording === "r1" && channel === "left")
    .map((one) => {
      const causes: Causes = [
        { cause: "valve", position: "V1", valve: "T-001", share: 0.5, low: 0, high: 1 },
        v2(0.5, 0, 1),
      ];
      return { ...one, causes, origin: originOf(causes) };
    }),
  verdict: {
    left: {
      state: "undecided",
      reason:
        "The recordings leave valve T-001 at V1 and valve T-117 at V2 possible: not separable: valve T-001 at V1 and valve T-117 at V2 came and went together.",
      candidates: ["valve"],
    },
  },
  nextRecording: {
    why: "Still possible in left: valve T-001 at V1; valve T-117 at V2. Fit T-001 at V1 in place of T-009, everything else as it was: hum that falls was the valve's, hum that stays was not.",
    supply: { source: "regenerated", frequency_Hz: 57 },
    valves: { V1: "T-001", V2: "T-118" },
    minutes: 26,
  },
  sentences: ["Left channel: undecided. Valve T-001 at V1 and valve T-117 at V2 came and went together."],
  notes: [],
};

/** Two causes of about the same strength, both surely there. */
export const together: HumHearingView = {
  ...decided,
  supplies: [],
  microphony: undefined,
  unit: "0415",
  lines: lines
    .filter(({ channel }) => channel === "left")
    .map((one) => {
      const causes =
        one.recording === "r1"
          ? [field(0.47, 0.38, 0.56), v2(0.41, 0.31, 0.5), amplifier(0.12, 0.04, 0.2)]
          : one.causes;
      return { ...one, causes, origin: originOf(causes) };
    }),
  verdict: {
    left: {
      state: "undecided",
      reason:
        "Two causes together: pick-up of the building's field (38 to 56 % of the hum) and valve T-117 at V2 (31 to 50 % of the hum); none of them is surely more than half.",
      candidates: ["pick-up", "valve"],
      together: [field(0.47, 0.38, 0.56), v2(0.41, 0.31, 0.5)],
    },
  },
  nextRecording: {
    why: "Still possible in left: pick-up of the building's field; valve T-117 at V2. They lie close together; a second offset frequency, with a mains reference channel and a longer recording, reads them apart once more.",
    supply: { source: "regenerated", frequency_Hz: 61 },
    valves: { V1: "T-001", V2: "T-117" },
    minutes: 6,
  },
  sentences: ["Left channel: two causes together, pick-up of the building’s field and valve T-117 at V2."],
  notes: [],
};

export const none: HumHearingView = {
  ...decided,
  supplies: [],
  microphony: undefined,
  unit: "0431",
  recordings: [],
  lines: [],
  verdict: {},
  headphones: [],
  sentences: [],
  notes: [],
  nextRecording: null,
};

export const manyLines: HumHearingView = {
  ...decided,
  unit: "0388",
  lines: Array.from({ length: 40 }, (_, i) =>
    line("left", "r1", "building", i + 1, 50.02 * (i + 1), 160 / (i + 1) ** 1.4, 18 - i * 1.3, [
      house(0.5, 0.3, 0.7),
      field(0.3, 0.1, 0.5),
      amplifier(0.2, 0, 0.4),
    ]),
  ),
};

/** A smooth floor with the given lines standing on it, as a recorder of this kind would show. */
export function spectrumOf(hearing: HumHearingView, recording: string, channel: string): SpectrumView {
  const columns = Array.from({ length: 420 }, (_, i) => {
    const frequency_Hz = 10 * 2000 ** (i / 419);
    const ripple = Math.sin(i * 12.9898) * 43758.5453;
    const floor = -126 - 6 * Math.log10(frequency_Hz / 20) + (ripple - Math.floor(ripple)) * 3;
    const near = hearing.lines
      .filter((l) => l.recording === recording && l.channel === channel)
      .filter((l) => Math.abs(Math.log(l.frequency_Hz / frequency_Hz)) < Math.log(2000) / 840)
      .map((l) => 20 * Math.log10(l.level_Vrms));
    return { frequency_Hz, low_dBV: floor - 5, high_dBV: Math.max(floor + 2, ...near) };
  });
  return { recording, channel, columns, resolution_Hz: 0.125, whole_Hz: [10, 20_000] };
}
