/**
 * Calls at once, and then at most once in each span however often it is asked: the last asking is never lost, and many
 * benches at work do not make every page fetch anew at each stroke of a key.
 */
export function paced(every_ms: number, call: () => void): { ask(): void; stop(): void } {
  let timer: NodeJS.Timeout | undefined;
  let isAsked = false;
  const go = () => {
    isAsked = false;
    call();
    timer = setTimeout(() => {
      timer = undefined;
      if (isAsked) go();
    }, every_ms);
    timer.unref();
  };
  return {
    ask() {
      if (timer === undefined) go();
      else isAsked = true;
    },
    stop: () => clearTimeout(timer),
  };
}
