import { useEffect, useId, useState } from "react";
import { inputs } from "./capture/capture.ts";
import { take } from "./messages.ts";

const namedInputs = async () => (await inputs()).filter(({ name }) => name !== "");

/** Which sound input; browsers name them only once recording was allowed, so they can be asked for. */
export function InputChoice({ value, onChange }: { readonly value: string; readonly onChange: (id: string) => void }) {
  const id = useId();
  const [known, setKnown] = useState<Awaited<ReturnType<typeof inputs>>>([]);
  useEffect(() => {
    const look = () => void namedInputs().then(setKnown);
    look();
    navigator.mediaDevices.addEventListener("devicechange", look);
    return () => navigator.mediaDevices.removeEventListener("devicechange", look);
  }, []);
  const name = async () => {
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
      for (const track of stream.getTracks()) track.stop();
    } catch {
      // Refused or absent: the list stays as it is, and recording says why.
    }
    setKnown(await namedInputs());
  };
  return (
    <div className="field">
      <label htmlFor={id}>{take.device}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>
        <option value="">{take.deviceAny}</option>
        {known.map((input) => (
          <option key={input.id} value={input.id}>
            {input.name}
          </option>
        ))}
      </select>
      {known.length === 0 && (
        <button type="button" className="name-inputs" onClick={() => void name()}>
          {take.nameInputs}
        </button>
      )}
    </div>
  );
}
