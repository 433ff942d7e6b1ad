// Started in a thread of its own: registers the TypeScript loader, then answers one calculation at a time.
import { register } from "tsx/esm/api";

register();
const { answerInThread } = await import("./answerInThread.ts");
export default answerInThread;
