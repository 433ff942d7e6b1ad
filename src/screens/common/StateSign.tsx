import type { State } from "../../workshop/views.ts";
import { states } from "./messages.ts";

export const stateWords: Readonly<Record<State, string>> = states;

const ring = <circle cx="12" cy="12" r="9.25" fill="none" />;
const tick = <path d="M7.2 12.4l3.3 3.6 6.6-8.2" fill="none" />;

/** One mark a state, told apart by shape alone; only a refuted claim, which means stop, is red. */
const marks: Readonly<Record<State, React.ReactNode>> = {
  open: <circle cx="12" cy="12" r="9.25" fill="none" strokeDasharray="3.4 3" />,
  proven: (
    <>
      {ring}
      {tick}
    </>
  ),
  undecided: (
    <>
      {ring}
      <path
        d="M8.9 9.6c.2-2 1.600-3 3.200-3 1.900 0 3.200 1.100 3.200 2.800 0 2.300-3.200 2.500-3.200 4.900M12.1 17.100v.5"
        fill="none"
      />
    </>
  ),
  void: (
    <>
      <circle cx="12" cy="12" r="9.25" fill="none" strokeDasharray="3.4 3" />
      {tick}
      <path d="M3 21L21 3" fill="none" />
    </>
  ),
  refuted: (
    <>
      <path className="stop-fill" d="M8.100 2.500h7.800l5.600 5.600v7.800l-5.600 5.600H8.100l-5.600-5.600V8.100z" />
      <path d="M7 12h10" stroke="var(--field)" strokeWidth="3" />
    </>
  ),
  conceded: (
    <>
      {ring}
      <path
        d="M6.600 13.600c1.400-4.600 3-4.600 3.200-1.800s1.500 2.500 2.600.2c1-2 1.900-1.600 2.100.2.200 1.300 1.500 1.200 2.800 0"
        fill="none"
      />
    </>
  ),
};

export function StateMark({ state }: { readonly state: State }) {
  return (
    <svg className={`state-mark state-mark-${state}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      {marks[state]}
    </svg>
  );
}

/** The mark with its word. */
export function StateSign({ state }: { readonly state: State }) {
  return (
    <span className="state-sign">
      <StateMark state={state} />
      {stateWords[state]}
    </span>
  );
}

/** The sign for stop, always beside words that say what to stop. */
export function StopSign() {
  return (
    <svg className="stop-sign" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d="M8 2h8l6 6v8l-6 6H8l-6-6V8z" />
      <path d="M6.500 12h11" />
    </svg>
  );
}
