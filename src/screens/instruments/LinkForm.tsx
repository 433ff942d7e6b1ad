import { type FormEvent, useId } from "react";
import { post } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { FormEnd } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { linked as words } from "./linkMessages.ts";

/** The owner's form: a description from its file or as text, checked field by field before it is taken into use. */
export function LinkForm() {
  const [by, setBy] = useBy();
  const draft = useDraft("wire link", { text: "" });
  const sending = useSending();
  const [fileId, textId] = [useId(), useId()];
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (by.trim() === "") return sending.refuse(`${common.by}: ${common.needed}`);
    let file: unknown;
    try {
      file = JSON.parse(draft.typed.text);
    } catch {
      return sending.refuse(words.notJson);
    }
    void sending.send(async () => {
      const { instrument } = await post<{ readonly instrument: string }>("/api/instruments/links", {
        by: by.trim(),
        file,
      });
      draft.clear();
      return words.linkedNow(instrument);
    });
  };
  return (
    <details>
      <summary>
        {words.owner}: {words.linkTitle}
      </summary>
      <form onSubmit={submit} noValidate>
        <p className="quiet">{words.linkLead}</p>
        <div className="field">
          <label htmlFor={fileId}>{words.file}</label>
          <input
            id={fileId}
            type="file"
            accept=".json,application/json"
            onChange={({ target }) => void target.files?.[0]?.text().then((text) => draft.change({ text }))}
          />
        </div>
        <div className="field">
          <label htmlFor={textId}>{words.text}</label>
          <textarea
            id={textId}
            rows={8}
            spellCheck={false}
            className="link-text"
            value={draft.typed.text}
            onChange={({ target }) => draft.change({ text: target.value })}
          />
        </div>
        <div className="fields">
          <By value={by} onChange={setBy} />
        </div>
        <FormEnd write={words.link} sending={sending} />
      </form>
    </details>
  );
}
