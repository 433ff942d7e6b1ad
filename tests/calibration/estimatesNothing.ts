/** Calculations whose answers hold no interval, no odds and no doubt that draws could prove wrong, and why. */
export const estimatesNothing: Readonly<Record<string, string>> = {
  "circuits.check": "reads a net list and says what is wrong with it",
  "circuits.distortion":
    "solves the net list as it stands; its doubt is of the arithmetic, what the last doubling of harmonics moved, and is held to an independent integration in time in the tests",
  "circuits.noise":
    "solves the net list as it stands; its doubt is of the arithmetic of the band's integral, held to closed forms in the tests",
  "circuits.response": "solves the net list as it stands; held to closed forms and a second solver in the tests",
  "circuits.rest": "solves the net list as it stands; held to closed forms and a second solver in the tests",
  "circuits.startup": "solves the net list in time as it stands; held to an independent integration in the tests",
  "circuits.version":
    "puts figures of other calculations side by side; windows and yields among them are those of circuits.spread and circuits.yield",
  "hum.audible":
    "puts levels against a printed threshold; its doubt of 10 dB is a judgement of how listeners and headphones differ, and draws made by that judgement would only give it back",
  "production.checks": "an expectation from odds that are taken as known; held to all orders enumerated",
  "production.schedule": "a schedule with a proved bound; held to published optima",
  "safety.dose": "a formula over a level and hours that are taken as known",
  "safety.store": "a formula over values that are given at the safe end of their tolerances",
  "timber.emc":
    "a published equation, held to its table; its doubt is a judgement of how woods differ from the table, and draws made by that judgement would only give it back",
  "timber.finish": "curing times of leaflets and common practice, given as they stand, without a doubt of their own",
  "timber.panels":
    "a plan with a proved bound; boards move as their species' mean, of which timber.move says how far boards differ",
  "timber.papers": "looks woods up in a list",
  "timber.runs":
    "a plan with a bound; what it says of pieces, and what a next weighing would leave, rests on timber.piece, whose intervals are counted",
};
