import { leastDuration_s } from "../bench/mains.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { isReference, sizeOf, type TraceInput } from "./traceInput.ts";

/** Of so many, a second of each can be read and the loudest lines weighed in time. */
export const mostRecordings = 40;
export const mostPositions = 12;
/** A supply nearer to the building's than this share, and not the same, gives lines that beat instead of standing apart. */
const leastOffset = 0.01;
/** How far a building's nominal may be from the one the supply is said to have. */
const sameFrequency = 0.002;

/** Whether a supply's lines stand apart from the building's. */
export function isOffset(frequency_Hz: number, building_Hz: number): boolean {
  return Math.abs(frequency_Hz / building_Hz - 1) > sameFrequency;
}

/**
 * What recordings must agree on before they can be compared.
 *
 * @throws BadInput  with the field at fault, as it stands in the input of `hum.trace`
 */
export function checkTraceInput({ building_Hz, recordings, feeds = {} }: TraceInput): void {
  refuseUnknownFeeds(feeds, recordings);
  const positions = Object.keys(recordings[0]?.valves ?? {});
  if (positions.length > mostPositions) {
    const given = `${positions.length} valve positions`;
    throw new BadInput("recordings[0].valves", given, `at most ${mostPositions}`, "name those that reach the output");
  }
  const ids = new Set<string>();
  for (const [i, recording] of recordings.entries()) {
    const { id, channels, supply, valves } = recording;
    const { channels: held, duration_s } = sizeOf(recording);
    const at = `recordings[${i}]`;
    if (ids.has(id))
      throw new BadInput(`${at}.id`, quote(id), "an id of its own for each recording", "give another id");
    ids.add(id);
    if (channels.length !== held) {
      const given = `${channels.length} names for ${held} channels`;
      throw new BadInput(`${at}.channels`, given, "one name a channel, in the file's order", "name each channel");
    }
    if (new Set(channels).size < channels.length) {
      throw new BadInput(`${at}.channels`, quote(channels), "each name once", "give each channel its own name");
    }
    if (channels.every(isReference)) {
      throw new BadInput(
        `${at}.channels`,
        quote(channels),
        "at least one channel of the unit",
        "record its output too",
      );
    }
    if (duration_s < leastDuration_s) {
      const given = `${duration_s.toFixed(2)} s`;
      throw new BadInput(`${at}.recording`, given, `${leastDuration_s} s or more`, "record again for about 8 s");
    }
    checkSupply(`${at}.supply.frequency_Hz`, supply, building_Hz);
    checkValves(`${at}.valves`, valves, positions);
  }
}

function checkSupply(
  path: string,
  { source, frequency_Hz }: TraceInput["recordings"][0]["supply"],
  building_Hz: number,
) {
  const offset = Math.abs(frequency_Hz / building_Hz - 1);
  if (source === "building" && offset > leastOffset) {
    const mend = "give the building's nominal, or say that the supply was regenerated";
    throw new BadInput(path, `${frequency_Hz} Hz`, `the building's ${building_Hz} Hz`, mend);
  }
  if (source === "regenerated" && isOffset(frequency_Hz, building_Hz) && offset < leastOffset) {
    const least = (building_Hz * (1 + leastOffset)).toFixed(1);
    const allowed = `${building_Hz} Hz when locked to the building, else ${least} Hz or more`;
    throw new BadInput(path, `${frequency_Hz} Hz`, allowed, "set the supply further from the building's frequency");
  }
}

function checkValves(path: string, valves: Readonly<Record<string, string>>, positions: readonly string[]) {
  for (const position of positions) {
    if (valves[position] === undefined) {
      const mend = "name the valve that stood there in this recording too";
      throw new BadInput(`${path}.${position}`, "nothing", "the same positions in every recording", mend);
    }
  }
  const fitted = new Map<string, string>();
  for (const [position, valve] of Object.entries(valves)) {
    if (!positions.includes(position)) {
      const allowed = `the positions of the first recording (${positions.join(", ") || "none"})`;
      throw new BadInput(`${path}.${position}`, quote(valve), allowed, "name the same positions in every recording");
    }
    const other = fitted.get(valve);
    if (other !== undefined) {
      const allowed = `a valve that does not stand at ${other} too`;
      throw new BadInput(`${path}.${position}`, quote(valve), allowed, "give each valve its own id");
    }
    fitted.set(valve, position);
  }
}

/** A channel misspelt in `feeds` would clear a valve without a word. */
function refuseUnknownFeeds(feeds: NonNullable<TraceInput["feeds"]>, recordings: TraceInput["recordings"]): void {
  const known = new Set(recordings.flatMap(({ channels }) => channels));
  for (const [position, reached] of Object.entries(feeds)) {
    for (const [i, channel] of reached.entries()) {
      if (known.has(channel)) continue;
      throw new BadInput(
        `feeds.${position}[${i}]`,
        quote(channel),
        `channels recorded are ${[...known].join(", ")}`,
        "name one of them, or leave it out",
      );
    }
  }
}
