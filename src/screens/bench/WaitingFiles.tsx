import { useQuery, useQueryClient } from "@tanstack/react-query";
import { useId } from "react";
import type { WaitingView } from "../../workshop/views.ts";
import { get, post } from "../common/api.ts";
import { dayAndTime } from "../common/calendar.ts";
import { plainNumber } from "../common/number.ts";
import { useSending } from "../common/useSending.ts";
import { waiting as words } from "./messages.ts";

const path = "/api/waiting";

interface Props {
  /** Content hash of the file chosen, if any. */
  readonly chosen: string | undefined;
  readonly onChoose: (file: WaitingView["files"][number] | undefined) => void;
}

/** Recorder's files that came in by themselves: one is chosen for this unit, or set aside. */
export function WaitingFiles({ chosen, onChoose }: Props) {
  const id = useId();
  const client = useQueryClient();
  // A card that is pulled, or a file that cannot be read, is no news of the ledger: the list is asked for again.
  const asked = useQuery({
    queryKey: [path],
    queryFn: () => get<WaitingView>(path),
    refetchInterval: ({ state }) => (state.data?.folder === undefined ? false : 4000),
  });
  const sending = useSending();
  const list = asked.data;
  if (!list || (list.files.length === 0 && list.refused.length === 0 && list.folder === undefined)) return null;
  const setAside = (file_sha256: string) =>
    void sending
      .send(async () => {
        await post(`${path}/${file_sha256}/aside`, {});
        return words.aside;
      })
      .then(() => {
        if (chosen === file_sha256) onChoose(undefined);
        return client.invalidateQueries({ queryKey: [path] });
      });
  return (
    <fieldset className="recorder-files">
      <legend>{words.title}</legend>
      {list.folder !== undefined && (
        <p className="small quiet">{list.isThere ? words.watched(list.folder) : words.gone(list.folder)}</p>
      )}
      {list.files.length === 0 && <p className="quiet">{words.none}</p>}
      <ul>
        {list.files.map((file) => (
          <li key={file.file_sha256} className="recorder-file">
            <label className="choice-option">
              <input type="radio" name={id} checked={chosen === file.file_sha256} onChange={() => onChoose(file)} />
              <span>
                <strong>{file.name}</strong>{" "}
                <span className="quiet small tabular">
                  {[
                    words.seconds(plainNumber(Number(file.duration_s.toFixed(1)))),
                    words.rate(plainNumber(file.rate_Hz / 1000)),
                    words.channels(file.channels),
                    dayAndTime(file.madeAt),
                  ].join(" · ")}
                </span>
              </span>
            </label>
            <button type="button" disabled={sending.busy} onClick={() => setAside(file.file_sha256)}>
              {words.setAside}
              <span className="visually-hidden"> {file.name}</span>
            </button>
          </li>
        ))}
      </ul>
      {chosen !== undefined && (
        <button type="button" onClick={() => onChoose(undefined)}>
          {words.instead}
        </button>
      )}
      {list.refused.map(({ name, why }) => (
        <p key={name} className="small">
          {words.refused(name, why)}
        </p>
      ))}
      <p role="status" className="small quiet">
        {sending.said}
      </p>
      {sending.error && (
        <p role="alert" className="outcome-error">
          {sending.error}
        </p>
      )}
    </fieldset>
  );
}
