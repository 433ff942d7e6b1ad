import { type LinkDescription, linkDescription } from "../../claims/links/description.ts";

/** A meter that says who it is and reads volts. */
export const meterAt = (wire: object, more: object = {}): LinkDescription =>
  linkDescription.parse({
    wire,
    timeout_ms: 900,
    identify: { send: "*IDN?", answer: "^BENCH,METER,1,2$" },
    quantities: [
      {
        quantity: "level_V",
        prepare: ["CONF:VOLT:DC AUTO"],
        send: "READ?",
        answer: "^(?<value>[+-]?\\d+\\.\\d+(E[+-]\\d+)?)$",
        overload: "^[+-]?9\\.9E\\+?37$",
        range: { low: -1000, high: 1000 },
        doubt: { reading_pct: 0.1, counts: 2, fixed: 0.001 },
        conditions: { meter_Mohm: 10 },
      },
    ],
    ...more,
  });

/** A balance that prints all the time. */
export const balanceAt = (wire: object, more: object = {}): LinkDescription =>
  linkDescription.parse({
    wire,
    timeout_ms: 1500,
    quantities: [
      {
        quantity: "mass_g",
        answer: "^ST,GS,(?<value>[+-] *\\d+(\\.\\d+)?) *(?<unit>kg|g)$",
        units: { g: 1, kg: 1000 },
        unsteady: "^US,",
        overload: "^OL",
        range: { low: -1, high: 30000 },
        doubt: { counts: 2 },
      },
    ],
    ...more,
  });

/** An AC source on simulated wires: takes settings as it is told, its output off at first. */
export function sourceAnswers(state = { V: 0, Hz: 50, on: false, error: "" }) {
  return (line: string): string | undefined => {
    const [word, given] = line.split(" ");
    switch (word) {
      case "*IDN?":
        return "BENCH,SOURCE,1,2";
      case "VOLT":
        if (Number(given) > 300) state.error = '-222,"Data out of range"';
        else state.V = Number(given);
        return undefined;
      case "FREQ":
        state.Hz = Number(given);
        return undefined;
      case "OUTP":
        state.on = given === "ON";
        return undefined;
      case "VOLT?":
        return state.V.toFixed(2);
      case "FREQ?":
        return state.Hz.toFixed(3);
      case "OUTP?":
        return state.on ? "1" : "0";
      case "MEAS:VOLT:AC?":
        return (state.on ? state.V + 0.04 : 0.01).toFixed(2);
      case "SYST:ERR?": {
        const { error } = state;
        state.error = "";
        return error === "" ? '0,"No error"' : error;
      }
      default:
        return undefined;
    }
  };
}

export const sourceAt = (wire: object, more: object = {}): LinkDescription =>
  linkDescription.parse({
    wire,
    timeout_ms: 500,
    identify: { send: "*IDN?", answer: "^BENCH,SOURCE" },
    errors: { send: "SYST:ERR?", none: "^0," },
    quantities: [
      {
        quantity: "output_Vrms",
        send: "MEAS:VOLT:AC?",
        answer: "^(?<value>\\d+\\.\\d+)$",
        range: { low: 0, high: 310 },
        doubt: { reading_pct: 0.3, fixed: 0.2 },
      },
    ],
    settings: [
      {
        setting: "output_Vrms",
        send: "VOLT {value}",
        ask: "VOLT?",
        answer: "^(?<value>\\d+\\.\\d+)$",
        agrees: 0.2,
      },
      {
        setting: "frequency_Hz",
        send: "FREQ {value}",
        decimals: 2,
        ask: "FREQ?",
        answer: "^(?<value>\\d+\\.\\d+)$",
        agrees: 0.02,
      },
    ],
    output: { on: "OUTP ON", off: "OUTP OFF", ask: "OUTP?", isOn: "^1$", isOff: "^0$" },
    ...more,
  });
