import type { MorningView } from "../../workshop/views.ts";

/** Invented mornings for the preview page and the browser tests. */

const today = (clock: string) => `2026-11-25T${clock}:00+00:00`;

export const usual: MorningView = {
  now: today("08:10"),
  ripens: [
    { at: today("09:00"), what: "Warm enough to read", unit: "0231" },
    { at: today("09:30"), what: "Heat run of tray 3 ends, read its 16 valves" },
    { at: today("11:15"), what: "Second coat may be turned", unit: "0422" },
    { at: today("11:40"), what: "Warm enough to read", unit: "0409" },
    { at: today("14:00"), what: "Ash boards 31 to 38 to be weighed" },
    { at: today("17:20"), what: "Case soak ends", unit: "0410" },
    { at: "2026-11-26T06:30:00+00:00", what: "Heat run of V2 ends", unit: "0405" },
  ],
  hands: [
    {
      person: "bench",
      next: [
        {
          unit: "0231",
          claim: "dc-at-jack",
          title: "No direct voltage at the headphone jack",
          why: "Void: the exchange of V2 touched it. 1 in 14 has direct voltage (3 of 44 so far), this finds 9 in 10 of them, and found now it costs 2 h instead of 14 h: 46 min saved on average (40.20 EUR) for 12 min of hands.",
          hands_min: 12,
          danger: "high-voltage",
          start: today("08:10"),
        },
        {
          unit: "0231",
          claim: "hum",
          title: "Hum below hearing on the customer’s headphones",
          why: "",
          hands_min: 10,
          danger: "none",
          start: today("08:22"),
        },
        { unit: "0409", claim: "balance", title: "Left and right equally loud", why: "", hands_min: 8, danger: "none" },
      ],
      home: today("17:00"),
      beforeHome: [
        {
          unit: "0410",
          claim: "case-soak",
          title: "The closed case stands the heat",
          why: "12 h by itself: begun today it is ready 7.8 h at work sooner than begun tomorrow.",
          hands_min: 10,
          danger: "hot",
          latest: today("16:50"),
          ripe: "2026-11-26T08:00:00+00:00",
        },
      ],
    },
    {
      person: "case maker",
      next: [
        {
          unit: "0422",
          claim: "gap",
          title: "Gap round the top panel after the second coat",
          why: "Cheapest check that could still send the case back before it is wired.",
          hands_min: 10,
          danger: "dust",
        },
      ],
    },
    { person: "owner", next: [] },
  ],
  blocked: [
    {
      unit: "0411",
      claim: "discharge",
      title: "The HT falls below 60 V in time after unplugging",
      why: "high-voltage: nobody else is at work with the one who can do it",
      hands_min: 5,
      danger: "high-voltage",
    },
  ],
  instruments: [
    {
      instrument: "valve tester",
      title: "Valve tester",
      state: "failed",
      at: today("07:45"),
      words: "reads the reference valve 3.1 % low. Every valve verdict since Monday 16:10 is open again.",
    },
    {
      instrument: "bench meter 2",
      title: "Bench meter 2",
      state: "good",
      at: today("07:50"),
      words: "reads the 100 V reference 0.02 % high, limit 0.1 %.",
    },
    { instrument: "recorder", title: "Recorder", state: "untried", words: "loop-back last tried yesterday." },
    {
      instrument: "scale",
      title: "Board scale",
      state: "undecided",
      at: today("07:55"),
      words: "check weight read once with a doubt wider than its limit. Weigh it three times.",
    },
  ],
};

export const quietDay: MorningView = {
  now: today("07:30"),
  ripens: [],
  hands: [{ person: "bench", next: [] }],
  instruments: [],
};

export const bareShop: MorningView = { now: today("07:30"), ripens: [], hands: [], instruments: [] };

export const busy: MorningView = {
  ...usual,
  now: today("13:05"),
  ripens: Array.from({ length: 18 }, (_, i) => ({
    at: today(`${String(8 + Math.floor(i / 2)).padStart(2, "0")}:${i % 2 === 0 ? "10" : "40"}`),
    what:
      i % 3 === 0
        ? "Boards to weigh on shelf four, north side, before the chamber is opened again"
        : "Warm enough to read",
    ...(i % 3 === 0 ? {} : { unit: `0${400 + i}` }),
  })),
  back: Array.from({ length: 4 }, (_, i) => ({
    unit: `0${310 + i}`,
    at: `2026-11-${20 + i}T09:15:00+00:00`,
    says: i === 2 ? "one channel fades after an hour; it was set beside a window all winter" : "hums since the move",
  })),
  hands: Array.from({ length: 6 }, (_, i) => ({ person: `bench ${i + 1}`, next: usual.hands[0]!.next })),
};
