import { describe, expect, test } from "vitest";
import { linkDescription } from "./description.ts";

const asked = (quantity: string, more: object = {}) => ({
  quantity,
  send: "READ?",
  answer: "^(?<value>.+)$",
  range: { low: -10, high: 10 },
  doubt: { fixed: 0.01 },
  ...more,
});
const silent = (quantity: string, more: object = {}) => asked(quantity, { send: undefined, ...more });
const setting = (name: string, more: object = {}) => ({
  setting: name,
  send: "V {value}",
  ask: "V?",
  answer: "^(?<value>.+)$",
  agrees: 0.1,
  ...more,
});
const identify = { send: "*IDN?", answer: "^A METER" };
const errors = { send: "ERR?", none: "^0" };

/** What is wrong with a description, each as `path: message`. */
function said(more: object): string[] {
  const wire = { kind: "tcp", host: "10.0.0.9", port: 5025 };
  const read = linkDescription.safeParse({ wire, quantities: [asked("level_V")], ...more });
  return read.success ? [] : read.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`);
}
const ofQuantity = (more: object) => said({ quantities: [asked("level_V", more)] });
const ofSetting = (more: object) => said({ settings: [setting("output_V", more)] });

describe("a quantity that is read", () => {
  const noDoubt = "quantities.0.doubt: a doubt above 0: without one a reading proves nothing";
  const noRange = "quantities.0.range: a range whose low lies below its high";
  const noPattern = "quantities.0.answer: a regular expression that can be read";
  const noGroup = "quantities.0.answer: a regular expression with a group (?<value>…)";
  test.each<[string, object, string[]]>([
    ["as it should be", {}, []],
    ["with a doubt of its digits alone", { doubt: { counts: 1 } }, []],
    ["with a doubt of its value alone", { doubt: { reading_pct: 0.1 } }, []],
    ["without a doubt", { doubt: { reading_pct: 0, counts: 0, fixed: 0 } }, [noDoubt]],
    ["with nothing said of its doubt", { doubt: {} }, [noDoubt]],
    ["with a factor below 0, of leads the wrong way round", { scale: -1 }, []],
    ["with a factor of 0", { scale: 0 }, ["quantities.0.scale: a factor other than 0"]],
    ["with a range of one value", { range: { low: 1, high: 1 } }, [noRange]],
    ["with a range the wrong way round", { range: { low: 2, high: 1 } }, [noRange]],
    ["with a pattern that is none", { answer: "(" }, [noPattern]],
    ["with a pattern that tells no value", { answer: "^(?<unit>.+)$" }, [noGroup]],
    ["with a pattern of no groups", { answer: "^.+$" }, [noGroup]],
    ["with the value in one of two ways to answer", { answer: "^OK$|^(?<value>.+) (?<unit>V)$" }, []],
    [
      "with an overload that is no pattern",
      { overload: "[" },
      ["quantities.0.overload: a regular expression that can be read"],
    ],
  ])("%s", (_, more, expected) => {
    expect(ofQuantity(more)).toEqual(expected);
  });
});

describe("a setting", () => {
  const once = "settings.0.send: text that holds {value} once";
  test.each<[string, object, string[]]>([
    ["as it should be", {}, []],
    ["whose text holds no value", { send: "V 230" }, [once]],
    ["whose text holds it twice", { send: "V {value};{value}" }, [once]],
  ])("%s", (_, more, expected) => {
    expect(ofSetting(more)).toEqual(expected);
  });
});

describe("an instrument as a whole", () => {
  const nothing = "quantities: at least one quantity that it reads or one setting";
  const mixed =
    "quantities: either questions for everything, or none: an instrument that speaks by itself is asked nothing";
  const speaks = { quantities: [silent("level_V"), silent("mass_g")] };
  const volts = setting("output_Vrms");
  test.each<[string, object, string[]]>([
    ["reads nothing and sets nothing", { quantities: [] }, [nothing]],
    ["sets and reads nothing", { quantities: [], settings: [volts] }, []],
    ["is asked everything", { quantities: [asked("level_V"), asked("mass_g")], identify, errors }, []],
    ["speaks by itself", speaks, []],
    [
      "speaks by itself of one thing and is asked another",
      { quantities: [silent("level_V"), asked("mass_g")] },
      [mixed],
    ],
    ["speaks by itself and is asked what it is", { ...speaks, identify }, [mixed]],
    ["speaks by itself and is asked its errors", { ...speaks, errors }, [mixed]],
    ["speaks by itself and is set", { ...speaks, settings: [volts] }, [mixed]],
    [
      "reads a quantity twice",
      { quantities: [asked("level_V"), asked("mass_g"), asked("level_V")] },
      ["quantities: each quantity once"],
    ],
    ["sets two things", { settings: [volts, setting("frequency_Hz")] }, []],
    ["sets one thing twice", { settings: [volts, volts] }, ["settings: each setting once"]],
  ])("%s", (_, more, expected) => {
    expect(said(more)).toEqual(expected);
  });
});
