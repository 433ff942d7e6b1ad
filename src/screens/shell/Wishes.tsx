import { useState } from "react";
import { chooseLanguage, languages, nameOf } from "../languages/chosen.ts";
import { languageInUse } from "../languages/spoken.ts";
import { chooseLight, type Light, lightNow, lights } from "./light.ts";
import { shell } from "./messages.ts";

/** How this machine shows the pages: its language and its light. */
export function Wishes() {
  const [light, setLight] = useState<Light>(lightNow);
  return (
    <div className="wishes">
      <label>
        {shell.language}{" "}
        <select value={languageInUse()} onChange={({ target }) => chooseLanguage(target.value)}>
          {languages.map((tag) => (
            <option key={tag} value={tag} lang={tag}>
              {nameOf(tag)}
            </option>
          ))}
        </select>
      </label>
      <label>
        {shell.light}{" "}
        <select
          value={light}
          onChange={({ target }) => {
            const wanted = lights.find((one) => one === target.value) ?? "day";
            chooseLight(wanted);
            setLight(wanted);
          }}
        >
          {lights.map((one) => (
            <option key={one} value={one}>
              {shell.lights[one]}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}
