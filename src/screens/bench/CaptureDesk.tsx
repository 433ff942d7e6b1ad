import { Measured } from "../common/Measured.tsx";
import { plainNumber } from "../common/number.ts";
import { LevelRule } from "./LevelRule.tsx";
import { take } from "./messages.ts";
import { type CaptureState, type Take, warningsOf } from "./useCapture.ts";

interface Props {
  readonly state: CaptureState;
  readonly channels: readonly string[];
  readonly stop: () => void;
  /** What to do with a recording that was made. */
  readonly after: (taken: Take) => React.ReactNode;
}

/** What happens while a recording is made: countdown, levels, and in the end what speaks for and against it. */
export function CaptureDesk({ state, channels, stop, after }: Props) {
  if (state.at === "rest") {
    return (
      <div className="outcome">
        <div role="status">{state.said && <p className="outcome-done">{state.said}</p>}</div>
        <div role="alert">{state.error && <p className="outcome-error">{state.error}</p>}</div>
      </div>
    );
  }
  if (state.at === "taken") {
    const { take: taken } = state;
    const warnings = warningsOf(taken, channels);
    return (
      <div className="capture-desk">
        <p role="status" className="capture-said">
          {take.taken(plainNumber(taken.seconds), String(taken.rate_Hz), take.bits(taken.grain_bits))}
        </p>
        {state.isFound && <p className="recalled">{take.found}</p>}
        {state.isKept && <p className="quiet small">{take.keptHere}</p>}
        {warnings.map((warning) => (
          <p key={warning} role="alert" className="outcome-error">
            {warning}
          </p>
        ))}
        <div className="capture-ways">{after(taken)}</div>
      </div>
    );
  }
  const progress = state.at === "running" ? state.progress : undefined;
  return (
    <div className="capture-desk">
      <p role="status" className="capture-said">
        {state.at === "countdown"
          ? take.countdown(state.left_s)
          : !progress || progress.phase === "settling"
            ? take.settling
            : take.running(progress.elapsed_s.toFixed(0), plainNumber(progress.whole_s))}
      </p>
      {progress?.levels.map((level, c) => (
        <Measured key={channels[c] ?? c}>
          {(width) => <LevelRule level={level} channel={channels[c] ?? String(c + 1)} width={Math.min(width, 560)} />}
        </Measured>
      ))}
      <button type="button" onClick={stop}>
        {take.stopNow}
      </button>
    </div>
  );
}
