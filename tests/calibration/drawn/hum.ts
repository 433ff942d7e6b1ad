import trace from "../../../src/calculations/hum.trace.ts";
import { drawRecordings } from "../../../src/hum/testing/judgeRecordings.ts";
import { type Calibration, calibrated, odds, type Said } from "../trial.ts";

/** source: benches made from known sources, recorded to files and read back. */
const traces = calibrated(trace, {
  drawn:
    "units of one to three valves in workshops drawn at random, one cause well over the others, recorded at 8 to 192 kHz on building's and offset supplies, with exchanged valves or without",
  suite: 1,
  why: "each draw makes and reads several recordings, some ten seconds of the processor; hundreds of benches in coverage-hum.md",
  draw(random) {
    const { input, judged } = drawRecordings(`${random.integer(2 ** 40)}`);
    const recordings = Object.fromEntries(input.recordings.map(({ id, recording }) => [`${id}.wav`, recording]));
    return {
      input: {
        building_Hz: input.building_Hz,
        feeds: Object.fromEntries(Object.entries(input.feeds).map(([position, fed]) => [position, [...fed]])),
        recordings: input.recordings.map(({ id, recording: _, ...one }) => ({
          ...one,
          id,
          channels: [...one.channels],
          recording: `${id}.wav`,
        })),
      },
      recordings,
      said(output): readonly Said[] {
        const all = judged(output as Parameters<typeof judged>[0]).judged;
        return all.flatMap(({ verdict, outcome, lines }): Said[] => [
          ...(verdict.state === "decided"
            ? [
                odds(
                  "odds of the cause named",
                  verdict.odds,
                  outcome === "right" || outcome === "decided without contrast",
                ),
                {
                  what: "no innocent valve accused",
                  stated: 0.98,
                  isTrue: outcome !== "accused",
                  atLeast: true,
                },
              ]
            : []),
          ...(verdict.state === "undecided"
            ? [
                {
                  what: "the true cause among the candidates",
                  stated: 0.97,
                  isTrue: outcome !== "candidate lost",
                  atLeast: true,
                },
              ]
            : []),
          ...lines.flat().map(({ held }) => ({ what: "bounds on shares", stated: 0.95, isTrue: held })),
          ...lines
            .flat()
            .filter(({ low, high }) => high - low < 0.9)
            .map(({ held }) => ({ what: "bounds on shares narrower than 0.9", stated: 0.95, isTrue: held })),
        ]);
      },
    };
  },
});

export const hum: readonly Calibration[] = [traces];
