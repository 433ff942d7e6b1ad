// Started in a thread of its own, where the program was not built: loads what draws spectra, then draws one at a time.
import { load } from "../../scripts/program.mjs";

export const { spectrumInThread } = await load("pictureThread");
